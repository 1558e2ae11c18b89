/** A number with a decimal mark on a circle with minutes is never taken silently on the command line. */
import { describe, expect, test } from 'vitest';
import { formText } from '../../src/tui/form.ts';
import { FILLED } from '../tui/fixture.ts';
import { type Ended, jsonLines, whichgas, withFiles } from './run-program.ts';

const convert = (...words: readonly string[]): Promise<Ended> =>
  withFiles({ 'bench.json': formText(FILLED) }, (cwd) =>
    whichgas(['convert', 'bench.json', ...words], { cwd }),
  );

test('what both habits can have written is refused, with both meanings', async () => {
  const { code, out, err } = await convert('229.17');
  expect(code).toBe(2);
  expect(out).toBe('');
  expect(err).toContain(
    `229.17 can be 229°10' (decimal degrees) or 229°17' (degrees.minutes) on this circle; write 229°10' or 229°17'`,
  );
});

test('what only one can have written is taken, and its meaning said', async () => {
  const { code, out, err } = await convert('229.683');
  expect(code).toBe(0);
  expect(err).toContain(`229.683 is taken as 229°41' (decimal degrees)`);
  expect(out).toContain('nm');
});

test('sixtieths are minutes', async () => {
  const [sixtieths, minutes] = jsonLines(await convert('229 41/60', "229 41'", '--json'));
  expect(sixtieths).toEqual({ ...(minutes as object), reading: '229 41/60' });
});

describe('a table of readings with decimal marks', () => {
  const table = (...readings: readonly string[]) => ({
    stdin: ['tube;reading', ...readings.map((reading) => `C;${reading}`)].join('\n'),
  });
  const imported = (readings: readonly string[], ...flags: readonly string[]) =>
    whichgas(['import', '-', '--least-count', "1'", ...flags], table(...readings));
  const textsOf = ({ out }: Ended): string[] =>
    (JSON.parse(out) as { unknown: { lines: { readings: string[] }[] } }).unknown.lines.map(
      ({ readings }) => readings[0]!,
    );

  test('is weighed as a whole: one number that only degrees.minutes can have written settles the rest', () => {
    const ended = imported(['229.17', '228.54', '231,26']);
    expect(ended.code).toBe(0);
    expect(textsOf(ended)).toEqual(["229°17'", "228°54'", "231°26'"]);
    expect(ended.err).toBe(
      `whichgas: standard input: 3 readings with a decimal mark are taken as degrees.minutes, as 228.54 can only be: 229.17 is 229°17'; --decimals degrees takes them the other way\n`,
    );
  });

  test('or one that only a calculator can', () => {
    const ended = imported(['229.17', '228.883']);
    expect(textsOf(ended)).toEqual(['229.17°', '228.883']);
    expect(ended.err).toContain(
      `2 readings with a decimal mark are taken as decimal degrees, as 228.883 can only be: 229.17 is 229°10'; --decimals minutes takes`,
    );
  });

  test.each([
    ['neither settles it', ['229.17', '229.50']],
    ['both do', ['229.17', '228.54', '228.883']],
  ])('is refused with both meanings and the cell where %s, and a flag settles it', (_what, readings) => {
    const { code, out, err } = imported(readings);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(
      /^whichgas: standard input: row 2, column 2 \(reading\): 229\.17 can be 229°10' \(decimal degrees\) or 229°17' \(degrees\.minutes\)[^\n]*--decimals degrees or --decimals minutes says which\n$/,
    );
    expect(textsOf(imported(readings, '--decimals', 'minutes'))[0]).toBe("229°17'");
    expect(textsOf(imported(readings, '--decimals', 'degrees'))[0]).toBe('229.17°');
  });

  test('that are decimal degrees by the word of a person are that in the record too', () => {
    const readings = ['277.59', '229.59', '231.44', '229.21', '229.17'];
    const ended = imported(readings, '--decimals', 'degrees');
    expect(textsOf(ended)).toEqual(readings.map((reading) => `${reading}°`));
    expect(ended.err).toContain('5 readings with a decimal mark are taken as decimal degrees');
    expect(ended.err).not.toContain('taken as degrees.minutes');
  });

  test('says nothing by a number that means the same both ways', () => {
    expect(imported(['229.17', '229.01', '230.20'])).toMatchObject({ code: 2, out: '' });
    expect(textsOf(imported(['228.54', '229.01', '229.17']))).toEqual(["228°54'", "229°01'", "229°17'"]);
  });

  test.each([
    ['whole degrees, and minutes with their signs', ['229', "229°17'", '229 17']],
    ['main scale and vernier', ['229.5 + 17']],
  ])('has no question for %s', (_what, readings) => {
    expect(imported(readings)).toMatchObject({ code: 0, err: '' });
  });

  test('has none on a circle of decimals, nor on a scale', () => {
    expect(whichgas(['import', '-', '--least-count', '0.01°'], table('229.17'))).toMatchObject({
      code: 0,
      err: '',
    });
    const scale = ['import', '-', '--method', 'scale', '--least-count', '0.01'];
    expect(whichgas(scale, table('229.17'))).toMatchObject({ code: 0, err: '' });
  });
});

test.each([
  ['predict', ['predict', 'He']],
  ['station', ['station', '--lamp', 'Hg', '--out', 'a.json']],
])('%s asks what a central reading or an apex angle means', (_what, words) =>
  withFiles({}, (cwd) => {
    const glass = [...words, '--glass', 'F2', '--least-count', "1'"];
    const central = whichgas([...glass, '--apex', '60', '--central', '181.20'], { cwd });
    expect(central).toMatchObject({ code: 2, out: '' });
    expect(central.err).toMatch(/^whichgas: --central: 181\.20 can be 181°12' .* or 181°20'/);
    const apex = whichgas([...glass, '--apex', '59.30', '--central', '181 20'], { cwd });
    expect(apex).toMatchObject({ code: 2, out: '' });
    expect(apex.err).toMatch(/^whichgas: --apex: 59\.30 can be 59°18' .* or 59°30'/);
    const plain = whichgas([...glass, '--apex', '60', '--central', '181.54'], { cwd });
    expect(plain.code).toBe(0);
    expect(plain.err).toContain(`--central: 181.54 is taken as 181°54' (degrees.minutes)`);
  }),
);
