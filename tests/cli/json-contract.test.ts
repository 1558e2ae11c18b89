import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { advised, calibrated, compared, converted, identified, predicted, verified } from './contract.ts';
import { exampleFile, examplesFolder, jsonLines, whichgas, withFiles } from './run-program.ts';

const names = readdirSync(examplesFolder).filter((name) => name.endsWith('.json'));
const clear = exampleFile('harbour-lane-bench-2.json');

/** Lines of the record in the file, to compare with what comes out. */
function recordLines(name: string) {
  const record = JSON.parse(readFileSync(exampleFile(name), 'utf8')) as Record<'known' | 'unknown', unknown>;
  const list = (value: unknown) => [value].flat() as { lines: { wavelengthNm?: number }[] }[];
  return {
    known: list(record.known).flatMap(({ lines }) => lines),
    tubes: list(record.unknown).map(({ lines }) => lines),
  };
}

describe.each(names)('identify --json on %s', (name) => {
  const ended = whichgas(['identify', '--json', exampleFile(name)]);
  const objects = jsonLines(ended).map((object) => z.parse(identified, object));

  it('prints one object of the agreed shape for every tube', () => {
    expect(ended.code).toBe(0);
    expect(objects).toHaveLength(recordLines(name).tubes.length);
    for (const { file } of objects) expect(file).toBe(exampleFile(name));
  });

  it('has an entry for every line, in the order of the record', () => {
    const { known, tubes } = recordLines(name);
    for (const [at, object] of objects.entries()) {
      expect(object.calibration.lines.map(({ index }) => index)).toEqual(known.map((_, line) => line));
      expect(object.calibration.lines.map(({ statedWavelengthNm }) => statedWavelengthNm)).toEqual(
        known.map(({ wavelengthNm }) => wavelengthNm ?? null),
      );
      expect(object.lines.map(({ index }) => index)).toEqual(tubes[at]?.map((_, line) => line));
    }
  });

  it('ranks every candidate, the probabilities with "unlisted" summing to 1', () => {
    for (const { candidates, verdict } of objects) {
      const probabilities = candidates.map(({ probability }) => probability);
      expect(probabilities.reduce((sum, each) => sum + each, 0)).toBeCloseTo(1, 6);
      expect(probabilities).toEqual([...probabilities].sort((a, b) => b - a));
      expect(candidates.find(({ substance }) => substance === 'unlisted')).toMatchObject({ symbol: null });
      expect(verdict.substance === null).toBe(verdict.kind !== 'identified');
    }
  });

  it('accounts for every reading in every row: fitted or left over', () => {
    for (const { candidates, lines } of objects) {
      for (const { matches, unexplained, substance } of candidates) {
        if (substance === 'unlisted') continue;
        const all = [...matches.map(({ index }) => index), ...unexplained].sort((a, b) => a - b);
        expect(all).toEqual(
          lines.filter(({ wavelengthNm }) => wavelengthNm !== null).map(({ index }) => index),
        );
      }
    }
  });

  it('gives the resolving power of a base that is named, in calibrate', () => {
    const [of40] = jsonLines(whichgas(['calibrate', '--json', '--base', '40', exampleFile(name)])).map(
      (object) => z.parse(calibrated, object),
    );
    const { indices } = of40!.calibration;
    if (indices === null) return;
    expect(indices.baseMm).toBe(40);
    for (const { resolvingPower, resolvingPowerPerMm } of indices.lines)
      expect(resolvingPower!.value).toBeCloseTo(40 * resolvingPowerPerMm!.value, 6);
  });

  it('prints the same calibration as calibrate --json, which has no lines at the top', () => {
    const [calibration] = jsonLines(whichgas(['calibrate', '--json', exampleFile(name)])).map((object) =>
      z.parse(calibrated, object),
    );
    expect(objects[0]?.calibration).toEqual(calibration?.calibration);
  });
});

describe('the scale method', () => {
  it('has no deviation and says so in its unit', () => {
    const [object] = jsonLines(
      whichgas(['identify', '--json', exampleFile('harbour-lane-bench-9.json')]),
    ).map((line) => z.parse(identified, line));
    expect(object?.calibration.unit).toBe('scale');
    expect(
      [...(object?.lines ?? []), ...(object?.calibration.lines ?? [])].map((line) => line.deviationDeg),
    ).toSatisfy(
      (deviations: unknown[]) => deviations.length > 0 && deviations.every((deviation) => deviation === null),
    );
  });

  it('takes readings below zero as they are typed', async () => {
    const record = JSON.parse(readFileSync(exampleFile('harbour-lane-bench-9.json'), 'utf8'));
    for (const line of record.known.lines) line.readings[0] -= 190;
    await withFiles({ 'below.json': JSON.stringify(record) }, (folder) => {
      const ended = whichgas(['convert', 'below.json', '-20.5', '-1', '--json'], { cwd: folder });
      const [first, second] = jsonLines(ended).map((line) => z.parse(converted, line));
      expect(first?.reading).toBe('-20.5');
      // What the example gives at 169.5.
      expect(first?.wavelengthNm).toBeCloseTo(557.4, 1);
      expect(second?.reading).toBe('-1');
      expect(second?.wavelengthNm).toBeLessThan(557);
    });
  });
});

describe('a record whose central image was never read', () => {
  const record = JSON.parse(readFileSync(exampleFile('harbour-lane-bench-2.json'), 'utf8'));
  const { central: _, ...without } = record;
  const stdin = JSON.stringify(without);

  it('is refused with a sentence that offers --as-scale', () => {
    const ended = whichgas(['identify', '-'], { stdin });
    expect(ended.code).toBe(2);
    expect(ended.err).toMatch(/^whichgas: .*central: missing; .* --as-scale .*fits the zero.*\n$/);
  });

  it.each(['calibrate', 'identify'])('is taken as a scale by %s --as-scale, which says so', (command) => {
    const ended = whichgas([command, '--json', '--as-scale', '-'], { stdin });
    expect(ended.code).toBe(0);
    const schema = command === 'calibrate' ? calibrated : identified;
    const [object] = jsonLines(ended).map((line) => z.parse(schema, line));
    expect(object!.calibration).toMatchObject({ unit: 'scale', indices: null });
    expect(object!.warnings.map(({ code }) => code)).toContain('taken-as-scale');
    if (command === 'identify') expect(object).toMatchObject({ verdict: { substance: 'neon' } });
  });
});

describe('a record that is still growing', () => {
  it.each([
    ['nothing yet', {}],
    ['a lamp without lines', { known: { lamp: 'mercury', lines: [] } }],
    [
      'one known line',
      {
        central: [181.07],
        known: { lamp: 'mercury', lines: [{ wavelengthNm: 546.07, readings: [229.65] }] },
      },
    ],
    ['a tube without lines', { central: [181.07], unknown: { lines: [] } }],
    ['unknown lines only', { central: [181.07], unknown: { lines: [{ readings: [229.65] }] } }],
  ])('with %s is undecided, with a warning and exit code 0', (_what, part) => {
    const stdin = JSON.stringify({
      whichgas: 1,
      instrument: { method: 'central', leastCount: "1'" },
      ...part,
    });
    const ended = whichgas(['identify', '--json', '-'], { stdin });
    expect(ended.code).toBe(0);
    const objects = jsonLines(ended).map((line) => z.parse(identified, line));
    expect(objects).toHaveLength(1);
    expect(objects[0]).toMatchObject({
      file: '-',
      title: '',
      tube: 'tube 1',
      verdict: { kind: 'undecided' },
    });
    expect(objects[0]?.warnings.length).toBeGreaterThan(0);
    expect(whichgas(['calibrate', '--json', '-'], { stdin }).code).toBe(0);
  });
});

describe('the other commands', () => {
  it('verify --json', () => {
    const ended = whichgas(['verify', '--json', clear, '--expect', 'Ne']);
    const [check] = jsonLines(ended).map((line) => z.parse(verified, line));
    expect(ended.code).toBe(0);
    expect(check).toMatchObject({
      expected: 'neon',
      outcome: 'supported',
      answer: null,
      answerAgrees: null,
      blame: [],
    });
  });

  it('convert --json, with the reading as it was given', () => {
    const ended = whichgas(['convert', '--json', clear, "229°17'", '229 40', '231.4333']);
    const readings = jsonLines(ended).map((line) => z.parse(converted, line));
    expect(ended.code).toBe(0);
    expect(readings.map(({ reading }) => reading)).toEqual(["229°17'", '229 40', '231.4333']);
    for (const [at, nm] of [585.25, 546.07, 435.83].entries()) {
      const { wavelengthNm, standardUncertaintyNm } = readings[at]!;
      expect(Math.abs(wavelengthNm! - nm)).toBeLessThan(3 * standardUncertaintyNm!);
    }
    expect(readings[0]?.near.map(({ substance }) => substance)).toContain('neon');
  });

  it('predict --advise --json: one object for each lamp, that which helps most first', () => {
    const lamps = jsonLines(whichgas(['predict', '--json', clear, '--advise', 'Hg', 'He', 'cadmium'])).map(
      (lamp) => z.parse(advised, lamp),
    );
    expect(lamps.map(({ lamp }) => lamp).sort()).toEqual(['cadmium', 'helium', 'mercury']);
    const after = lamps.map(({ rmsUncertaintyNm }) => rmsUncertaintyNm);
    expect(after).toEqual([...after].sort((a, b) => a - b));
  });

  it('predict --json, and convert --to as the way back of convert', () => {
    const lines = jsonLines(whichgas(['predict', '--json', clear, 'mercury'])).map((line) =>
      z.parse(predicted, line),
    );
    const green = lines.find(({ wavelengthNm }) => Math.abs(wavelengthNm - 546.07) < 0.01);
    expect(green).toMatchObject({
      substance: 'mercury',
      color: 'green',
      extrapolated: false,
      brightness: 'strong',
    });
    const [back] = jsonLines(whichgas(['convert', '--json', clear, '--to', '546.07'])).map((line) =>
      z.parse(predicted, line),
    );
    expect(back).toMatchObject({ substance: null, reading: green?.reading, brightness: null });
  });

  it('compare RECORD OTHER --json', () => {
    const ended = whichgas(['compare', '--json', clear, clear]);
    expect(ended.code).toBe(0);
    const [found] = jsonLines(ended).map((line) => z.parse(compared, line));
    expect(found?.stationCheck.findings).toEqual([]);
    expect(found?.stationCheck.curve?.shift.value).toBe(0);
    expect(found?.known.every(({ difference }) => difference.value === 0)).toBe(true);
    expect(found?.tubes[0]?.lines.every(({ before, now }) => before === now)).toBe(true);
  });

  it('report --json says what was written', () =>
    withFiles({}, (cwd) => {
      const ended = whichgas(['report', clear, '--out', 'r.md', '--json'], { cwd });
      expect(ended).toMatchObject({ code: 0 });
      expect(jsonLines(ended)).toEqual([{ file: clear, out: 'r.md', format: 'md' }]);
    }));

  it('lines --json, schema --json and demo --json', () => {
    expect(jsonLines(whichgas(['lines', '--json', 'neon'])).length).toBeGreaterThan(50);
    expect(jsonLines(whichgas(['schema', '--json']))).toHaveLength(1);
    const [demo] = jsonLines(whichgas(['demo', '--json'])).map((line) => z.parse(identified, line));
    expect(demo).toMatchObject({ verdict: { kind: 'identified', substance: 'neon' } });
  });
});

describe('what belongs to one tube', () => {
  const record = JSON.parse(readFileSync(clear, 'utf8'));
  record.unknown = [record.unknown, { label: 'tube D', lines: [] }];

  it('is warned of there only', () => {
    const objects = jsonLines(whichgas(['identify', '--json', '-'], { stdin: JSON.stringify(record) })).map(
      (object) => z.parse(identified, object),
    );
    expect(objects.map(({ warnings }) => warnings.map(({ code }) => code))).toEqual([
      [],
      ['no-unknown-lines'],
    ]);
  });

  it('is not enough for verify where there is no tube: a valid record, not supported', () => {
    const { unknown: _tube, ...without } = record;
    const ended = whichgas(['verify', '--expect', 'neon', '--json', '-'], {
      stdin: JSON.stringify(without),
    });
    expect(ended).toMatchObject({ code: 1, err: '' });
    expect(jsonLines(ended).map((object) => z.parse(verified, object))).toMatchObject([
      { tube: 'tube 1', outcome: 'insufficient', probability: null, best: null },
    ]);
  });
});

describe('a bench that reads both sides', () => {
  const stdin = JSON.stringify({ whichgas: 1, instrument: { method: 'both-sides', leastCount: "1'" } });

  it('asks for the other side as it is typed', () => {
    const { code, err } = whichgas(['convert', '-', '228 12'], { stdin });
    expect(code).toBe(2);
    expect(err).toContain('228 12 is one side only; type both, for instance "left 228 12 right 131 48"');
  });
});

describe('a bench without a calibration', () => {
  const stdin = JSON.stringify({
    whichgas: 1,
    instrument: { method: 'central', leastCount: "1'" },
    central: ["181°04'"],
    known: { lamp: 'mercury', lines: [{ wavelengthNm: 546.07, readings: ["229°40'"], use: false }] },
  });

  it('converts a reading to a deviation, and has null for what it cannot know', () => {
    const ended = whichgas(['convert', '--json', '-', "229°40'"], { stdin });
    expect(ended).toMatchObject({ code: 0, err: expect.stringMatching(/too few known lines/) });
    const [reading] = jsonLines(ended).map((line) => z.parse(converted, line));
    expect(reading?.deviationDeg).toBeCloseTo(48.6, 9);
    expect(reading).toMatchObject({ wavelengthNm: null, standardUncertaintyNm: null, color: null, near: [] });
  });

  it('predicts nothing, and says so once', () => {
    const ended = whichgas(['predict', '-', 'helium'], { stdin });
    expect(ended).toEqual({
      code: 0,
      out: '',
      err: expect.stringMatching(/^whichgas: standard input: [^\n]*nothing can be predicted\n$/),
    });
  });

  it('predicts lines without a place', () => {
    const ended = whichgas(['predict', '--json', '-', 'helium'], { stdin });
    expect(ended.code).toBe(0);
    const lines = jsonLines(ended).map((line) => z.parse(predicted, line));
    expect(lines.length).toBeGreaterThan(5);
    for (const line of lines) expect(line).toMatchObject({ reading: null, deviationDeg: null });
  });

  it('still lists the known line that is left out', () => {
    const [object] = jsonLines(whichgas(['calibrate', '--json', '-'], { stdin })).map((line) =>
      z.parse(calibrated, line),
    );
    expect(object?.calibration.lines).toMatchObject([
      { index: 0, statedWavelengthNm: 546.07, status: 'set-aside' },
    ]);
  });
});
