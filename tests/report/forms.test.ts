import Papa from 'papaparse';
import { parse } from 'parse5';
import { describe, expect, test } from 'vitest';
import type { Analysis } from '../../src/analysis/types.ts';
import { roundWithUncertainty } from '../../src/numeric/round-uncertainty.ts';
import { signedText } from '../../src/present/quantity-text.ts';
import { buildReport } from '../../src/present/report/build-report.ts';
import { blocksInOrder, type Table, underCaption } from '../../src/present/report/document.ts';
import { renderReport } from '../../src/present/report/write-report.ts';
import type { ReportFormat } from '../../src/present/report-format.ts';
import { analysis, scaleAnalysis, unfinishedAnalysis } from './fixture.ts';
import { elements, textOf } from './html-tree.ts';

const options = { file: 'bench.json', generatedOn: '2026-11-25' };
const write = (format: ReportFormat, of: Analysis = analysis): string => renderReport(of, format, options);
const tablesOf = (of: Analysis): Table[] =>
  buildReport(of, options).sections.flatMap(({ blocks }) =>
    blocksInOrder(blocks).filter((block) => block.kind === 'table'),
  );

const benches: [string, Analysis][] = [
  ['a whole bench', analysis],
  ['a drum with an arbitrary scale', scaleAnalysis],
  ['a record with nothing read yet', unfinishedAnalysis],
];

describe.each(benches)('the report of %s', (_, of) => {
  test('is well-formed HTML', () => {
    const errors: string[] = [];
    parse(write('html', of), {
      onParseError: ({ code, startLine }) => errors.push(`${code} in line ${startLine}`),
    });
    expect(errors).toEqual([]);
  });

  test('is light, and asks for nothing from outside', () => {
    const html = write('html', of);
    expect(html.length).toBeLessThan(200_000);
    const tree = elements(parse(html));
    expect(
      tree.filter(({ tagName }) => ['script', 'img', 'link', 'iframe', 'object'].includes(tagName)),
    ).toEqual([]);
    const reaching = tree.flatMap(({ attrs }) => attrs.filter(({ name }) => /^(href|src|on.*)$/i.test(name)));
    expect(reaching).toEqual([]);
    expect(html).not.toMatch(/url\(|@import/);
  });

  test.each(['html', 'md', 'csv'] as const)('has no hole in %s', (format) => {
    expect(write(format, of)).not.toMatch(/\b(NaN|undefined|null|Infinity)\b|\[object/);
  });

  test.each(['html', 'md', 'csv'] as const)('is the same text every time in %s', (format) => {
    expect(write(format, of)).toBe(write(format, of));
  });

  test('has a cell for every column', () => {
    for (const { rows, columns, name } of tablesOf(of)) {
      for (const row of rows) expect(row, name).toHaveLength(columns.length);
    }
  });
});

describe('the three forms hold the same strings', () => {
  test('every cell of every table stands in the HTML, in order', () => {
    const cells = elements(parse(write('html')))
      .filter(({ tagName }) => tagName === 'td')
      .map(textOf);
    const expected = tablesOf(analysis).flatMap((table) => underCaption(table).rows.flat());
    expect(cells.map(withoutHostile)).toEqual(expected.map(withoutHostile));
  });

  test('every row of every table stands in the Markdown', () => {
    const lines = write('md').split('\n');
    const numbers = tablesOf(analysis).filter(({ name }) =>
      ['refractive indices', 'uncertainty budget'].includes(name),
    );
    for (const row of numbers.flatMap((table) => underCaption(table).rows))
      expect(lines).toContain(`| ${row.join(' | ')} |`);
  });

  test('every table stands in the CSV under its name, numbers bare', () => {
    const rows = Papa.parse<string[]>(write('csv')).data;
    for (const { name, columns, rows: expected } of tablesOf(analysis)) {
      const start = rows.findIndex((row, at) => row.length === 1 && row[0] === name && !rows[at - 1]?.[0]);
      expect(start, name).toBeGreaterThanOrEqual(0);
      expect(rows[start + 1]).toEqual(columns.map(({ title }) => title));
      expect(rows[start + 2], name).toHaveLength(columns.length);
      expect(rows[start + 2]![0]).toBe(expected[0]![0]);
    }
  });
});

/** Columns of hostile text are compared elsewhere: their control characters are gone in the HTML. */
const withoutHostile = (text: string): string => (text.includes('HYPERLINK') ? 'hostile' : text);

describe('numbers', () => {
  test('are those of the analysis, rounded as on screen', () => {
    const table = tablesOf(analysis).find(({ name }) => name === 'lines')!;
    const expected = analysis.tubes[0]!.lines.map(({ wavelengthNm, standardUncertaintyNm }) => {
      const { value, u } = roundWithUncertainty(wavelengthNm!, standardUncertaintyNm!);
      return [value, u];
    });
    expect(table.rows.map((row) => row.slice(5, 7))).toEqual(expected);
    const calibration = tablesOf(analysis).find(({ name }) => name === 'calibration lines')!;
    expect(calibration.rows.map((row) => row[8])).toEqual(
      analysis.calibration.lines.map(({ residual }) => signedText(residual, 2)),
    );
  });

  test('of the worked example add up to what is stated', () => {
    const html = textOf(elements(parse(write('html'))).find(({ tagName }) => tagName === 'body')!);
    const result = /Result: λ = [\d.]+ ± ([\d.]+) nm/.exec(html)?.[1];
    expect(html).toMatch(new RegExp(`u\\(λ\\) = .* = ${result} nm`));
  });

  test('of the pocket formula, put in as printed, give the wavelength that is printed', () => {
    const line =
      /λ = λ0 \+ C\/\(δ - δ0\) = ([\d.]+) \+ ([\d.]+) \/ \(([\d.]+)° - ([\d.]+)°\) = .* = ([\d.]+) nm/.exec(
        write('md').replaceAll('\\', ''),
      )!;
    const [lambda0, strength, delta, delta0, stated] = line.slice(1).map(Number);
    expect(lambda0! + strength! / (delta! - delta0!)).toBeCloseTo(stated!, 1);
    const { worstNm } = analysis.calibration.hartmann!;
    const onTheCurve = /On the curve in use: λ = ([\d.]+) nm/.exec(write('md').replaceAll('\\', ''))![1];
    expect(Math.abs(stated! - Number(onTheCurve))).toBeLessThanOrEqual(worstNm + 0.11);
  });

  test('of the index, put in as printed, give the index that is printed', () => {
    const text = write('md').replaceAll('\\', '');
    const [, apex, deviation, index] = /n = sin\(\(([\d.]+)° \+ ([\d.]+)°\)\/2\) \/ .* = ([\d.]+)\s/
      .exec(text)!
      .map(Number);
    const sine = (deg: number): number => Math.sin((deg * Math.PI) / 180);
    expect(sine((apex! + deviation!) / 2) / sine(apex! / 2)).toBeCloseTo(index!, 4);
    const [, part1, u1, part2, u2, u] =
      /u\(n\) = √\(\(([\d.]+)·([\d.]+)\)² \+ \(([\d.]+)·([\d.]+)\)²\) = .* = ([\d.]+)\s/
        .exec(text)!
        .map(Number);
    expect(Math.hypot(part1! * u1!, part2! * u2!) / u!).toBeCloseTo(1, 0);
  });
});

test('the first page comes first: the result, one picture, the lines of the tube; the curve in use comes last', () => {
  const { sections } = buildReport(analysis, options);
  expect(sections[0]!.blocks.map(({ kind }) => kind)).toEqual(['table', 'figure']);
  expect(sections[1]!.title).toContain('tube C');
  expect(sections.at(-1)!.title).toContain('Appendix');
  const calibration = sections.find(({ title }) => title === 'Calibration')!;
  expect(calibration.blocks[0]).toMatchObject({ kind: 'formula' });
  const legendre = sections.filter(({ blocks }) =>
    blocksInOrder(blocks).some(
      (block) => block.kind === 'formula' && block.lines.includes(analysis.calibration.formula),
    ),
  );
  expect(legendre).toEqual([sections.at(-1)]);
});

test('a runner-up that nearly lost is told in sentences, one that may be right is shown line by line', () => {
  const [first, second, ...rest] = analysis.tubes[0]!.candidates;
  const close = {
    ...analysis,
    tubes: [{ ...analysis.tubes[0]!, candidates: [first!, { ...second!, probability: 0.3 }, ...rest] }],
  };
  const names = (of: Analysis): string[] => tablesOf(of).map(({ name }) => name);
  expect(names(analysis)).not.toContain('runner-up');
  expect(names(close)).toContain('runner-up');
  expect(write('md')).toContain(analysis.tubes[0]!.reasons[0]!.slice(0, 20));
});

test('a tube without a ranking has the calibration curve for its picture, once', () => {
  const held = { ...analysis, tubes: [{ ...analysis.tubes[0]!, candidates: [], reasons: [] }] };
  const figures = buildReport(held, options)
    .sections.flatMap(({ blocks }) => blocksInOrder(blocks))
    .filter(({ kind }) => kind === 'figure');
  expect(figures).toHaveLength(3);
});

describe('what was typed by anyone stays text', () => {
  test('in HTML', () => {
    const html = write('html');
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(html).not.toMatch(/<script|[\u202a-\u202e\u2066-\u2069\x00-\x09\x0b-\x1f]/);
  });

  test('in Markdown', () => {
    const markdown = write('md');
    expect(markdown).toContain('\\<script\\>alert(1)\\</script\\>');
    expect(markdown).toContain('\\*\\*bold\\*\\*');
    expect(markdown).not.toMatch(/(?<!\\)<|https?:\/\/|[\u202a-\u202e\x1b]/);
  });

  test('in CSV no cell is a formula', () => {
    const cells = Papa.parse<string[]>(write('csv')).data.flat();
    expect(cells.some((cell) => cell.includes('HYPERLINK'))).toBe(true);
    expect(cells.filter((cell) => /^[=+\-@\t\r]/.test(cell) && !/^[+-]\d+(\.\d+)?$/.test(cell))).toEqual([]);
  });

  test('in CSV what does not exist is an empty cell', () => {
    expect(write('html')).toContain('>-</td>');
    expect(write('csv')).not.toMatch(/(^|,)'?-(,|$)/m);
  });
});

test('what is said to have been done about a doubt is no more than was done', () => {
  const doubt = (kind: string) =>
    ({ step: 'known', index: null, kind, probability: 0.99, message: kind }) as const;
  const doubts = [doubt('wrong-lamp'), doubt('moved')];
  const doubted = { ...analysis, calibration: { ...analysis.calibration, doubts } };
  const markdown = renderReport(doubted, 'md', { file: 'bench.json', generatedOn: null });
  expect(markdown).toMatch(/\| wrong-lamp \|.*\| used as lines of the likelier lamp \|/);
  expect(markdown).toMatch(/\| moved \|.*\| kept as written \|/);
});

test('the prism of a scale is not said to be set', () => {
  const onScale = { ...analysis, bench: { ...analysis.bench, method: 'scale' as const } };
  const form = { file: 'bench.json', generatedOn: null };
  expect(renderReport(analysis, 'md', form)).toContain('set to minimum deviation anew');
  expect(renderReport(onScale, 'md', form)).not.toContain('set to minimum deviation anew');
});

test('without a date nothing in the report says when it was written', () => {
  const html = renderReport(analysis, 'html', { file: 'bench.json', generatedOn: null });
  expect(html).toContain('Written by whichgas from the record bench.json.');
});
