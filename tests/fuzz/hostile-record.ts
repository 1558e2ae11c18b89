/** A record whose every free text is hostile, through everything that shows it. */
import fc from 'fast-check';
import Papa from 'papaparse';
import { parse } from 'parse5';
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import type { Analysis } from '../../src/analysis/types.ts';
import { verifyTube } from '../../src/analysis/verify.ts';
import { calibrateText } from '../../src/present/calibrate-text.ts';
import { identifyObjects } from '../../src/present/identify-json.ts';
import { identifyText } from '../../src/present/identify-text.ts';
import { renderReport } from '../../src/present/report/write-report.ts';
import { jsonLine } from '../../src/present/safe-text.ts';
import { verifyCsvHeader, verifyCsvRow, verifyObject, verifyText } from '../../src/present/verify-output.ts';
import type { Bench, Warning } from '../../src/record/bench.ts';
import { most } from '../../src/record/limits.ts';
import { elements } from '../report/html-tree.ts';
import { mustRead } from './benches.ts';
import type { Budget } from './budget.ts';
import { obeyedByTerminals, textOf } from './hostile-text.ts';

const name = textOf(most.nameCharacters);
const note = textOf(most.noteCharacters);

const freeText = fc.record({
  title: name,
  label: name,
  note,
  color: name,
  answer: name,
  observer: name,
  remarks: textOf(most.remarkCharacters),
  /** Of the bench: its station, its date and the like. */
  about: note,
  file: textOf(4096),
});
type FreeText = typeof freeText extends fc.Arbitrary<infer Value> ? Value : never;

/** A bench of a few lines; one of them is slipped so that messages quote texts. */
function recordWith({ title, label, note, color, answer, observer, remarks, about }: FreeText) {
  return {
    whichgas: 1,
    title,
    instrument: { method: 'central', leastCount: "1'" },
    central: ["181°04'"],
    known: {
      lamp: 'helium',
      lines: [
        { wavelengthNm: 706.52, readings: ["228°26'"], note },
        { wavelengthNm: 667.82, readings: ["228°45'"], color },
        { wavelengthNm: 587.56, readings: ["229°15'"] },
        { wavelengthNm: 501.57, readings: ["230°17'"] },
        { wavelengthNm: 447.15, readings: ["231°15'"] },
      ],
    },
    unknown: {
      label,
      answer,
      lines: [
        { readings: ["228°57'"], color, note },
        { readings: ["229°15'"], note },
        { readings: ["229°58'"] },
      ],
    },
    check: [{ wavelengthNm: 492.19, readings: ["230°26'"], color, note }],
    answer,
    about: {
      observers: [observer, observer],
      remarks,
      ...Object.fromEntries(
        ['date', 'station', 'lamp', 'tube', 'prism', 'slit', 'temperature'].map((key) => [key, about]),
      ),
    },
  };
}

/** The analysis does not depend on free texts, so it is made once; the texts are put into it anew. */
function analysed(text: FreeText): { analysis: Analysis; warnings: readonly Warning[] } {
  const { bench, warnings } = mustRead(recordWith(text));
  return { analysis: withTexts(bench), warnings };
}

let plain: Analysis | null = null;
function withTexts(bench: Bench): Analysis {
  plain ??= analyseBench(bench);
  const tubes = plain.tubes.map((tube, at) => {
    const relabelled = (message: string) => message.replaceAll(tube.label, () => bench.tubes[at]!.label);
    return {
      ...tube,
      label: bench.tubes[at]!.label,
      doubts: [
        ...tube.doubts,
        {
          step: 'central' as const,
          index: null,
          kind: 'moved-central',
          probability: 0.9,
          message: relabelled(`${tube.label}: its central image differs.`),
        },
      ],
      warnings: tube.warnings.map((warning) => ({ ...warning, message: relabelled(warning.message) })),
    };
  });
  return { ...plain, bench, tubes };
}

const report = (analysis: Analysis, format: 'html' | 'md' | 'csv', file: string) =>
  renderReport(analysis, format, { file, generatedOn: '2026-11-25' });

const markupOf = (html: string): Set<string> =>
  new Set(
    elements(parse(html)).flatMap(({ tagName, attrs }) => [
      tagName,
      ...attrs.map(({ name }) => `${tagName} ${name}`),
    ]),
  );

/** Marks that a Markdown reader would obey: not escaped, and none that the report writes itself. */
const obeyedByMarkdown = /(?<!\\)(?:\\\\)*[<`[\]$~]|(?<!\\):\/\/|^\s*(?:={3,}|~~~)/m;

const isFormula = (cell: string): boolean =>
  /^\s*[=+\-@\t\r]/.test(cell) && !/^[+-]?\d+(\.\d+)?$/.test(cell) && cell !== '-';

/** Every row of a table has as many cells as its head. */
function expectWholeTables(markdown: string): void {
  let columns: number | null = null;
  for (const line of markdown.split('\n')) {
    const bars = line.startsWith('| ') ? [...line.matchAll(/(?<!\\)(?:\\\\)*\|/g)].length : null;
    if (bars !== null && columns !== null) expect(bars, line).toBe(columns);
    columns = bars;
  }
}

export function describeHostileRecords({ inputs }: Budget): void {
  const runs = { numRuns: Math.ceil(inputs / 5) };
  const neutral = analysed({
    title: 'a title',
    label: 'a tube',
    note: 'a note',
    color: 'a colour',
    answer: 'an answer',
    observer: 'A',
    remarks: 'some',
    about: '2',
    file: 'bench.json',
  });

  describe('a record of hostile texts', { timeout: 3_600_000 }, () => {
    test('sends nothing to a terminal that it would obey', () => {
      fc.assert(
        fc.property(freeText, (text) => {
          const { analysis, warnings } = analysed(text);
          const check = { file: text.file, ...verifyTube(analysis, analysis.tubes[0]!, 'neon') };
          const objects = identifyObjects(text.file, analysis, warnings);
          for (const printed of [
            calibrateText(text.file, analysis, warnings),
            identifyText(text.file, analysis, warnings),
            verifyText([check]),
            ...objects.map(jsonLine),
            jsonLine(verifyObject(check)),
            verifyCsvRow(check),
            ...(['html', 'md', 'csv'] as const).map((format) => report(analysis, format, text.file)),
          ]) {
            expect(printed).not.toMatch(obeyedByTerminals);
          }
          for (const object of objects) expect(JSON.parse(jsonLine(object))).toEqual(object);
        }),
        runs,
      );
    });

    test('becomes no markup of a web page', () => {
      const own = markupOf(report(neutral.analysis, 'html', 'bench.json'));
      fc.assert(
        fc.property(freeText, (text) => {
          const found = markupOf(report(analysed(text).analysis, 'html', text.file));
          expect([...found].filter((each) => !own.has(each))).toEqual([]);
        }),
        runs,
      );
    });

    test('becomes no markup of Markdown', () => {
      expectWholeTables(report(neutral.analysis, 'md', 'bench.json'));
      fc.assert(
        fc.property(freeText, (text) => {
          const markdown = report(analysed(text).analysis, 'md', text.file);
          expect(markdown).not.toMatch(obeyedByMarkdown);
          expectWholeTables(markdown);
        }),
        runs,
      );
    });

    test('becomes no formula of a spreadsheet', () => {
      fc.assert(
        fc.property(freeText, (text) => {
          const { analysis } = analysed(text);
          const check = { file: text.file, ...verifyTube(analysis, analysis.tubes[0]!, 'neon') };
          const gradebook = `${verifyCsvHeader}\n${verifyCsvRow(check)}`;
          const [header, row] = Papa.parse<string[]>(gradebook, { delimiter: ',' }).data;
          expect(row).toHaveLength(header!.length);
          // Spreadsheets take the separator from the country's settings, not from the file.
          const cells = [gradebook, report(analysis, 'csv', text.file)].flatMap((csv) =>
            [',', ';'].flatMap((delimiter) => Papa.parse<string[]>(csv, { delimiter }).data.flat()),
          );
          expect(cells.filter(isFormula)).toEqual([]);
        }),
        runs,
      );
    });
  });
}
