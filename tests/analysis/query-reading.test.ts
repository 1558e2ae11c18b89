/**
 * What the screen asks about a reading before it is taken. The question must be the one that the calibration answers
 * once the reading is in the record: there is one set of slip hypotheses. Benches from catalogue glass constants.
 */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { queryKnownLines } from '../../src/analysis/query-known-lines.ts';
import {
  type Asked,
  type Meaning,
  queryReading,
  type WrittenReading,
} from '../../src/analysis/query-reading.ts';
import { calibrate } from '../../src/calibrate/calibrate.ts';
import type { Bench } from '../../src/record/bench.ts';
import { readSetting } from '../../src/record/read-setting.ts';
import type { ReadingValue } from '../../src/record/schema.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  knownLamp,
  linesAt,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';

const reader = new GlassReader();
const minute = { leastCountArcmin: 1, scaleDivisionArcmin: 30, decimal: false };

function written(value: ReadingValue, method: Bench['method'] = 'central'): WrittenReading {
  const read = readSetting(value, { method, windows: 1, circle: method === 'scale' ? null : minute });
  if (!read.ok) throw new Error(read.problem);
  return { setting: read.setting, text: read.text };
}

const askedOf = (record: PlainRecord): Asked => ({
  leastCountArcmin: (record.instrument as { method: string }).method === 'scale' ? null : 1,
  analysis: analyseBench(benchOf(record)),
  askCalibration: queryKnownLines,
});

const known = (wavelengthNm: number | null, edits: number | null = null): Meaning => ({
  kind: 'known',
  wavelengthNm,
  repeatsOf: [],
  lamp: 0,
  edits,
});
const ofTube: Meaning = { kind: 'unknown', repeatsOf: [], others: [], tube: 0 };

/** Helium with all lines but the one at 447.15 nm. */
const withoutBlue = heliumNm.filter((nm) => nm !== 447.15);
const helium = (lines = linesAt(withoutBlue)): PlainRecord =>
  recordOf(reader, { known: knownLamp(reader, { lamp: 'helium', lines }) });

describe('a new reading of a known line', () => {
  test('that lies on the curve is taken without a question', () => {
    expect(queryReading(written(reader.line(447.15)), known(447.15), askedOf(helium()))).toBeNull();
  });

  test.each([
    [30, 'half a degree (30 arc-minutes) missed'],
    [-30, 'half a degree (30 arc-minutes) missed'],
    [60, 'one degree missed'],
    [-600, 'ten degrees missed'],
  ])("that is %i' off is asked about as what the calibration finds of it", (slipArcmin, cause) => {
    const text = reader.line(447.15, slipArcmin);
    const question = queryReading(written(text), known(447.15), askedOf(helium()));
    expect(question?.what).toBe('off-curve');
    expect(question?.message).toContain(`from where 447.1 nm should be: ${cause}?`);
    const { lines } = calibrate(
      benchOf(helium([...linesAt(withoutBlue), { nm: 447.15, slipArcmin } as { nm: number }])),
    ).calibration;
    expect(lines.at(-1)?.finding?.what).toBe('slip');
  });

  test('that no slip explains is told by how far it is off', () => {
    const question = queryReading(written(reader.line(447.15, 17)), known(447.15), askedOf(helium()));
    expect(question?.message).toMatch(/^That is 1[67](\.\d)?' from where 447\.1 nm should be\.$/);
  });

  test('that is another line of the lamp is named', () => {
    const question = queryReading(
      written(reader.line(501.57)),
      known(492.19),
      askedOf(helium(linesAt(heliumNm.filter((nm) => nm !== 492.19 && nm !== 501.57)))),
    );
    expect(question?.message).toMatch(/from where 492\.2 nm should be: is it 501\.57\?$/);
  });

  test('brings a misread line to light, once', () => {
    const misread = [{ nm: 706.52 }, { nm: 587.56 }, { nm: 402.62, slipArcmin: -30 }];
    const question = queryReading(written(reader.line(501.57)), known(501.57), askedOf(helium(misread)));
    expect(question?.what).toBe('fault-elsewhere');
    expect(question?.message).toMatch(
      /^This reading fits, and the line named 402\.62 \(.*\) does not: half a degree \(30 arc-minutes\) missed\? Read that one again\.$/,
    );
    const later = askedOf(helium([...misread, { nm: 501.57 }]));
    expect(later.analysis!.calibration.lines[2]!.status).toBe('slip');
    expect(queryReading(written(reader.line(471.31)), known(471.31), later)).toBeNull();
  });

  test('that corrects a misread one is not held against it', () => {
    const lines = heliumNm.map((nm) => ({ nm, slipArcmin: nm === 447.15 ? 30 : 0 }));
    const at = heliumNm.indexOf(447.15);
    expect(queryReading(written(reader.line(447.15)), known(447.15, at), askedOf(helium(lines)))).toBeNull();
    expect(
      queryReading(written(reader.line(447.15, 60)), known(447.15, at), askedOf(helium(lines))),
    ).toMatchObject({ what: 'off-curve' });
  });

  test('that corrects one nobody could suspect is not asked about against it', () => {
    // Of two lines a curve through both says nothing; the first is a degree off, and is read anew.
    const lines = [587.56, 447.15].map((nm) => ({ nm, slipArcmin: nm === 587.56 ? 60 : 0 }));
    const { analysis } = askedOf(helium(lines));
    const query = (replaces: number | null) =>
      queryKnownLines(
        [{ ...written(reader.line(587.56)), wavelengthNm: 587.56, lamp: 0, replaces }],
        analysis!,
      )[0];
    expect(query(0)).toBeNull();
    expect(query(null)).not.toBeNull();
  });

  test('beside one other line only is asked about with it', () => {
    const asked = askedOf(helium(linesAt([587.56])));
    expect(queryReading(written(reader.line(447.15)), known(447.15), asked)).toBeNull();
    expect(queryReading(written(reader.line(447.15, 600)), known(447.15), asked)).not.toBeNull();
  });

  test('is one of several that are asked about together, each for itself', () => {
    const readings = withoutBlue.map((nm, at) => ({
      ...written(reader.line(nm, at === 3 ? 30 : 0)),
      wavelengthNm: nm,
      lamp: 0,
      replaces: null,
    }));
    const { analysis } = askedOf(helium(linesAt([447.15])));
    const queries = queryKnownLines(readings, analysis!);
    expect(queries.map((query) => query?.what ?? null)).toEqual(
      withoutBlue.map((_, at) => (at === 3 ? 'off-curve' : null)),
    );
  });
});

describe('a new reading of a line of a tube', () => {
  const asked = askedOf(recordOf(reader, { unknown: unknownTube(reader, neonNm.slice(0, 3)) }));

  test('in sight is taken without a question', () => {
    expect(queryReading(written(reader.line(585.25)), ofTube, asked)).toBeNull();
  });

  test('out of sight is asked about, with the slip that would bring it back', () => {
    const question = queryReading(written(reader.line(585.25, 600)), ofTube, asked);
    expect(question?.what).toBe('out-of-sight');
    expect(question?.message).toContain('No visible light falls there on this bench.');
    expect(question?.message).toContain(`reads like ${reader.line(585.25)}: ten degrees missed?`);
  });

  test('at the place of another is a repeat of it; on a scale 360 units further is another place', () => {
    const at = (text: string): Meaning => ({
      ...(ofTube as Extract<Meaning, { kind: 'unknown' }>),
      others: [{ ...written(text), line: 4 }],
    });
    const text = reader.line(640.22);
    expect(queryReading(written(text), at(text), asked)).toMatchObject({ what: 'same-place' });
    expect(queryReading(written(text), at(reader.line(640.22, 1)), asked)).toBeNull();
    const scale = { leastCountArcmin: null, analysis: null, askCalibration: null };
    const other: Meaning = {
      kind: 'unknown',
      repeatsOf: [],
      others: [{ ...written(10, 'scale'), line: 0 }],
      tube: 0,
    };
    expect(queryReading(written(370, 'scale'), other, scale)).toBeNull();
    expect(queryReading(written(10, 'scale'), other, scale)).toMatchObject({ what: 'same-place' });
  });

  test('with two sides whose middle is that of no other line is asked about', () => {
    const sides = (nm: number, slip = 0) => ({ readings: [reader.bothSides(nm, slip)] });
    const both = askedOf({
      instrument: { method: 'both-sides', leastCount: "1'" },
      known: { lamp: 'helium', lines: heliumNm.map((nm) => ({ wavelengthNm: nm, ...sides(nm) })) },
      unknown: { lines: neonNm.slice(0, 3).map((nm) => sides(nm)) },
    });
    const read = (slip: number) => written(reader.bothSides(585.25, slip), 'both-sides');
    expect(queryReading(read(0), ofTube, both)).toBeNull();
    const question = queryReading(read(30), ofTube, both);
    expect(question?.what).toBe('misread-part');
    expect(question?.message).toMatch(/reads like .* missed\? Read it again\.$/);
  });
});

describe('a repeat', () => {
  const bare: Asked = { leastCountArcmin: 1, analysis: null, askCalibration: null };
  const central = (...others: string[]): Meaning => ({
    kind: 'central',
    others: others.map((each) => written(each)),
  });

  test('is asked about where it agrees with none of those before', () => {
    expect(queryReading(written("181°34'"), central("181°04'", '183°'), bare)?.message).toBe(
      "That is 30' from 181°04', read before.",
    );
    expect(queryReading(written("181°14'"), central("181°04'", '183°'), bare)).toBeNull();
    expect(queryReading(written("181°15'"), central("181°04'", '183°'), bare)).not.toBeNull();
    expect(queryReading(written("0°01'"), central("359°59'"), bare)).toBeNull();
    expect(queryReading(written("181°34'"), central(), bare)).toBeNull();
  });
});
