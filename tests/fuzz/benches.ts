/** Valid records through the analysis and every presenter. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as z from 'zod';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { benchExpecting, verifyTube } from '../../src/analysis/verify.ts';
import { calibrateText } from '../../src/present/calibrate-text.ts';
import { calibrateObject, identifyObjects } from '../../src/present/identify-json.ts';
import { identifyText } from '../../src/present/identify-text.ts';
import { renderReport } from '../../src/present/report/write-report.ts';
import { verifyCsvRow, verifyObject, verifyText } from '../../src/present/verify-output.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { formatRecord } from '../../src/record/write-record.ts';
import { unsoundNumbers } from '../analysis/walk.ts';
import { calibrated, identified, verified } from '../cli/contract.ts';
import { type Budget, inTime } from './budget.ts';
import { holes, obeyedByTerminals } from './hostile-text.ts';
import { extremeRecord, validRecord } from './random-bench.ts';

const file = 'bench.json';
const formats = ['html', 'md', 'csv'] as const;

/** The record as read from its text. Throws with the problems: the records here are valid by construction. */
export function mustRead(record: unknown) {
  const read = readRecord(JSON.stringify(record));
  if (!read.ok) throw new Error(read.problems.map(({ place, message }) => `${place}: ${message}`).join('\n'));
  return read;
}

async function checkBench(json: unknown): Promise<void> {
  const { record, bench, warnings } = mustRead(json);
  expect(mustRead(JSON.parse(formatRecord(record))).bench).toEqual(bench);

  const analysis = await inTime(() => analyseBench(benchExpecting(bench, () => 'neon')));
  expect(unsoundNumbers(analysis)).toEqual([]);
  z.parse(calibrated, calibrateObject(file, analysis, warnings));
  const objects = identifyObjects(file, analysis, warnings).map((object) => z.parse(identified, object));
  expect(objects).toHaveLength(Math.max(1, bench.tubes.length));
  const known = bench.known.flatMap(({ lines }) => lines);
  for (const [at, { calibration, lines, candidates }] of objects.entries()) {
    expect(calibration.lines.map(({ index }) => index)).toEqual(known.map((_, index) => index));
    expect(lines.map(({ index }) => index)).toEqual((bench.tubes[at]?.lines ?? []).map((_, index) => index));
    if (candidates.length === 0) continue;
    const total = candidates.reduce((sum, { probability }) => sum + probability, 0);
    expect(Math.abs(total - 1)).toBeLessThan(1e-9);
  }

  const checks = analysis.tubes.map((tube) => ({ file, ...verifyTube(analysis, tube, 'neon') }));
  for (const check of checks) z.parse(verified, verifyObject(check));
  const printed = [
    calibrateText(file, analysis, warnings),
    identifyText(file, analysis, warnings),
    verifyText(checks),
    ...checks.map(verifyCsvRow),
    ...formats.map((format) => renderReport(analysis, format, { file, generatedOn: '2026-11-25' })),
  ];
  for (const text of printed) {
    expect(text).not.toMatch(holes);
    expect(text).not.toMatch(obeyedByTerminals);
    // No number of a bench has so many digits.
    expect(text).not.toMatch(/\d{25}/);
  }
}

/** Readings that belong to nothing, so that every explanation is tried. */
const anyReadings = (count: number, repeats = 1) =>
  Array.from({ length: count }, (_, i) => {
    const arcmin = (i * 7919) % 181;
    const reading = `${229 + Math.floor(arcmin / 60)}°${String(arcmin % 60).padStart(2, '0')}'`;
    return { readings: Array<string>(repeats).fill(reading) };
  });

const largeRecord = ({ lamps, known, tubes, unknown, repeats }: (typeof large)[number]) => ({
  whichgas: 1,
  instrument: { method: 'central', leastCount: "1'" },
  central: ["181°04'"],
  known: Array.from({ length: lamps }, (_, i) => ({
    lamp: ['mercury', 'helium', 'cadmium'][i % 3],
    lines: anyReadings(known),
  })),
  unknown: Array.from({ length: tubes }, () => ({ lines: anyReadings(unknown, repeats) })),
});

const large: readonly Record<'lamps' | 'known' | 'tubes' | 'unknown' | 'repeats', number>[] = [
  { lamps: 10, known: 10, tubes: 1, unknown: 10, repeats: 1 },
  { lamps: 1, known: 200, tubes: 1, unknown: 10, repeats: 1 },
  { lamps: 1, known: 10, tubes: 1, unknown: 40, repeats: 1 },
  { lamps: 1, known: 10, tubes: 1, unknown: 50, repeats: 20 },
];

export function describeBenches({ benches }: Budget): void {
  describe('benches of every kind', () => {
    test('are analysed and shown without a hole', { timeout: 3_600_000 }, async () => {
      // Whole benches shrink for minutes; the first one that fails is told as it is.
      await fc.assert(fc.asyncProperty(validRecord, checkBench), { numRuns: benches, endOnFailure: true });
    });

    test('also those whose numbers lie on the bounds of what a record may hold', {
      timeout: 3_600_000,
    }, async () => {
      await fc.assert(fc.asyncProperty(extremeRecord, checkBench), {
        numRuns: 4 * benches,
        endOnFailure: true,
      });
    });

    test.each(large)(
      'also hopeless ones of $lamps × $known known and $tubes × $unknown × $repeats unknown lines',
      async (size) => checkBench(largeRecord(size)),
    );
  });
}
