import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { converted, identified, predicted, verified } from './contract.ts';
import { exampleFile, jsonLines, whichgas, withFiles } from './run-program.ts';

/** Last week's record, and today's: the same bench, its central image moved by 20°, and no known lamp. */
const lastWeek = JSON.parse(readFileSync(exampleFile('harbour-lane-bench-2.json'), 'utf8'));
const turned = (text: string) => text.replace(/^\d+/, (degrees) => String(Number(degrees) + 20));
const { known: _lamp, ...today } = structuredClone(lastWeek);
today.central = lastWeek.central.map(turned);
for (const line of today.unknown.lines) line.readings = line.readings.map(turned);

const files = { 'last-week.json': JSON.stringify(lastWeek), 'today.json': JSON.stringify(today) };
const run = (...args: string[]) =>
  withFiles(files, (cwd) => whichgas([...args, '--calibration', 'last-week.json', '--json'], { cwd }));

describe('--calibration OTHER.json', () => {
  it('identifies a tube on the known lamp of another record, and speaks of the time between', async () => {
    const ended = await run('identify', 'today.json');
    expect(ended.code).toBe(0);
    const [object] = jsonLines(ended).map((line) => z.parse(identified, line));
    expect(object).toMatchObject({ verdict: { kind: 'identified', substance: 'neon' } });
    expect(object?.calibration.lines).toHaveLength(lastWeek.known.lines.length);
    expect(object?.warnings.map(({ code }) => code)).toContain('calibration-drift');
  });

  it('has the central readings of both days in the uncertainty', async () => {
    const [object] = jsonLines(await run('identify', 'today.json')).map((line) => z.parse(identified, line));
    const [then] = jsonLines(whichgas(['identify', '--json', '-'], { stdin: files['last-week.json'] })).map(
      (line) => z.parse(identified, line),
    );
    for (const [at, { standardUncertaintyNm }] of object!.lines.entries()) {
      expect(standardUncertaintyNm).toBeGreaterThan(then!.lines[at]!.standardUncertaintyNm!);
    }
  });

  it('converts a reading to what identify says of it', async () => {
    const reading = today.unknown.lines[2].readings[0];
    const [one] = jsonLines(await run('convert', 'today.json', reading)).map((line) =>
      z.parse(converted, line),
    );
    const [object] = jsonLines(await run('identify', 'today.json')).map((line) => z.parse(identified, line));
    const { wavelengthNm, standardUncertaintyNm } = object!.lines[2]!;
    expect(one?.wavelengthNm).toBeCloseTo(wavelengthNm!, 6);
    expect(one?.standardUncertaintyNm).toBeCloseTo(standardUncertaintyNm!, 6);
  });

  it("predicts on today's circle", async () => {
    const here = jsonLines(await run('predict', 'today.json', 'neon')).map((line) =>
      z.parse(predicted, line),
    );
    const there = jsonLines(
      whichgas(['predict', '--json', '-', 'neon'], { stdin: files['last-week.json'] }),
    ).map((line) => z.parse(predicted, line));
    expect(here.map(({ reading }) => reading)).toEqual(there.map(({ reading }) => turned(reading!)));
  });

  it('verifies and reports', async () => {
    const [check] = jsonLines(await run('verify', 'today.json', '--expect', 'neon')).map((line) =>
      z.parse(verified, line),
    );
    expect(check).toMatchObject({ outcome: 'supported' });
    expect(await run('report', 'today.json', '--out', 'r.html')).toMatchObject({ code: 0 });
  });

  it("reads on the calibration's circle where the record has no central image of its own", async () => {
    const { central: _central, ...without } = lastWeek;
    const own = jsonLines(whichgas(['predict', '-', 'neon', '--json'], { stdin: files['last-week.json'] }));
    const ended = await withFiles({ ...files, 'without.json': JSON.stringify(without) }, (cwd) =>
      whichgas(['predict', 'without.json', 'neon', '--calibration', 'last-week.json', '--json'], { cwd }),
    );
    expect(ended.code).toBe(0);
    expect(own.length).toBeGreaterThan(5);
    expect(jsonLines(ended)).toEqual(own);
  });

  it('refuses the calibration of a scale for angles', () => {
    const scale = exampleFile('harbour-lane-bench-9.json');
    const { code, err } = whichgas([
      'identify',
      exampleFile('harbour-lane-bench-2.json'),
      '--calibration',
      scale,
    ]);
    expect(code).toBe(2);
    expect(err).toMatch(/divided circle/);
  });
});
