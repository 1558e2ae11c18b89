/** Numbers all through a record that are degrees.minutes, against decimal degrees that look like them. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { decimalsMeant, withDecimalsTold } from '../../src/analysis/decimals-meant.ts';
import { verifyTube } from '../../src/analysis/verify.ts';
import { circleOf } from '../../src/angle/circle.ts';
import { decimalMeaning } from '../../src/angle/decimal-meaning.ts';
import { buildReport } from '../../src/present/report/build-report.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { computation } from '../../src/tui/computation.ts';
import { formOf } from '../../src/tui/form.ts';
import { cataloguePrism, minimumDeviationArcmin } from '../score/prism.ts';

// NIST SRD 108, rounded as school tables do.
const mercury = [404.7, 435.8, 491.6, 546.1, 577, 579.1, 623.4];
const helium = [447.15, 471.31, 501.57, 587.56, 667.82, 706.52];

type Written = string | number;
type Writing<As = Written> = (arcmin: number) => As;

/** `231.17` for 231°17': what is lost in a number is the zero of 231.20. */
const dotted: Writing<number> = (arcmin) => {
  const degrees = Math.floor(arcmin / 60);
  return Number(`${degrees}.${String(arcmin - 60 * degrees).padStart(2, '0')}`);
};
const decimal: Writing = (arcmin) => Number((arcmin / 60).toFixed(2));

function written<As extends Written>(
  write: Writing<As>,
  { glass = 'F2', zeroArcmin = 180 * 60 + 4, step = 1, known = mercury } = {},
) {
  const prism = cataloguePrism(glass, 60);
  const line = (nm: number) =>
    write(Math.round((zeroArcmin + minimumDeviationArcmin(prism, nm)) / step) * step);
  return {
    whichgas: 1,
    instrument: { method: 'central', leastCount: `${step}'` },
    central: [write(zeroArcmin)],
    known: {
      lamp: 'mercury',
      lines: known.map((wavelengthNm) => ({ wavelengthNm, readings: [line(wavelengthNm)] })),
    },
    unknown: { lines: helium.map((nm) => ({ readings: [line(nm)] })) },
  };
}

function meant(record: object) {
  const read = readRecord(JSON.stringify(record));
  if (!read.ok) throw new Error(read.problems[0]?.message);
  const { bench, warnings, record: taken } = decimalsMeant(read);
  const said = warnings.filter(({ code }) => code === 'decimals').map(({ message }) => message);
  return { analysis: analyseBench(bench), isRewritten: taken !== read.record, said };
}

function isRewritten(record: object): boolean {
  const read = readRecord(JSON.stringify(record));
  return read.ok && decimalsMeant(read).record !== read.record;
}

describe('numbers that are degrees.minutes all through a record', () => {
  test.each([1, 5])("are read so on a circle of %i', in one sentence, and no line is accused", (step) => {
    const { analysis, said } = meant(written(dotted, { step, zeroArcmin: 180 * 60 + 5 }));
    expect(said).toEqual([expect.stringMatching(/is taken as \d+°\d\d' \(degrees\.minutes\) rather than/)]);
    expect(analysis.calibration.lines.map(({ status }) => status)).toEqual(mercury.map(() => 'used'));
    expect(analysis.calibration.lines.flatMap(({ message }) => message ?? [])).toEqual([]);
    expect(analysis.tubes[0]!.candidates[0]).toMatchObject({ substance: 'helium' });
    for (const [i, { wavelengthNm, standardUncertaintyNm }] of analysis.tubes[0]!.lines.entries()) {
      expect(Math.abs(wavelengthNm! - helium[i]!)).toBeLessThan(2.5 * standardUncertaintyNm!);
    }
  });

  test('are read so on the bench screen too, and it says so', () => {
    const read = readRecord(JSON.stringify(written(dotted)));
    if (!read.ok) throw new Error('unreadable');
    const analysis = computation.analyse(formOf(read.record));
    expect(analysis.warnings.map(({ code }) => code)).toContain('decimals');
    expect(analysis.calibration.rms).toBeLessThan(1);
  });

  test('are decimal degrees where the known lines say so, though every one could be minutes', () => {
    // Zeros of the circle at which no reading has more than 59 hundredths.
    const zeros = Array.from({ length: 60 }, (_, i) => 180 * 60 + i);
    const records = ['N-BK7', 'N-K5', 'LLF1', 'N-BAK4'].flatMap((glass) =>
      zeros.map((zeroArcmin) => {
        const record = written(decimal, { glass, zeroArcmin, known: [546.1, 578, 623.4] });
        return { ...record, unknown: { lines: record.unknown.lines.slice(3, 5) } };
      }),
    );
    const canBeMinutes = records.filter((record) =>
      [...JSON.stringify(record).matchAll(/[[:](\d{3}\.\d+)/g)].every(([, text]) => Number(text) % 1 < 0.595),
    );
    expect(canBeMinutes.length).toBeGreaterThan(5);
    expect(canBeMinutes.filter((record) => meant(record).isRewritten)).toEqual([]);
  });
});

test('texts that both habits can have written are settled by the known lines', () => {
  const circle = circleOf(1);
  const asText: Writing<string> = (arcmin) => dotted(arcmin).toFixed(2);
  const isOpen = ({ readings: [text] }: { readings: readonly Written[] }) => {
    const meaning = decimalMeaning(String(text), circle);
    return meaning?.kind === 'either' || meaning?.alike === true;
  };
  // Of each record those lines that are a mark of this circle both ways.
  const both = Array.from({ length: 20 }, (_, i) => {
    const record = written(asText, { zeroArcmin: 180 * 60 + 3 * i });
    const { known, unknown, central } = record;
    return {
      ...record,
      central: central.filter((text) => isOpen({ readings: [text] })),
      known: { ...known, lines: known.lines.filter(isOpen) },
      unknown: { lines: unknown.lines.filter(isOpen) },
    };
  }).filter(
    ({ central, known, unknown }) =>
      central.length === 1 && known.lines.length >= 4 && unknown.lines.length >= 2,
  );
  expect(both.length).toBeGreaterThan(3);
  for (const record of both) {
    const { analysis, said, isRewritten } = meant(record);
    expect(isRewritten).toBe(true);
    expect(said).toEqual([expect.stringMatching(/\(degrees\.minutes\) rather than/)]);
    expect(analysis.calibration.rms).toBeLessThan(1);
  }
});

describe('texts rounded to a part of a degree are decimal degrees', () => {
  const rounded =
    (partsOfDegree: number): Writing =>
    (arcmin) =>
      (Math.round((arcmin / 60) * partsOfDegree) / partsOfDegree).toFixed(partsOfDegree === 4 ? 2 : 1);
  const records = (parts: number, step: number) =>
    ['F2', 'N-BK7', 'N-BAK4']
      .flatMap((glass) =>
        [0, 15, 30].flatMap((minutes) =>
          [mercury, [546.1, 578, 623.4]].map((known) =>
            written(rounded(parts), { glass, known, step: 1, zeroArcmin: 100 * 60 + minutes }),
          ),
        ),
      )
      .map((record) => ({ ...record, instrument: { method: 'central', leastCount: `${step}'` } }));

  test.each([
    [2, 1],
    [2, 5],
    [2, 10],
    [4, 1],
    [4, 5],
    [10, 1],
  ])("1/%i of a degree on a circle of %i'", (parts, step) => {
    const taken = records(parts, step).filter(isRewritten);
    expect(taken).toEqual([]);
  });
});

describe('numbers left over beside readings with signs', () => {
  const signed: Writing = (arcmin) => `${Math.floor(arcmin / 60)}°${arcmin % 60}'`;
  const leftOver = (left: number, lines = written(signed), open = written(dotted)) => ({
    ...lines,
    unknown: {
      lines: lines.unknown.lines.map((line, i) => (i < left ? open.unknown.lines[i]! : line)),
    },
  });

  test.each([1, 3, 6])('are decimal degrees, and it is said what they would be else: %i of them', (left) => {
    const { said, isRewritten } = meant(leftOver(left));
    expect(isRewritten).toBe(false);
    expect(said).toEqual([
      expect.stringMatching(/\(decimal degrees\), not as .* \(degrees\.minutes\).*write all/),
    ]);
  });

  test('are told of on the bench screen, in the check and in the report by the same sentence', () => {
    const record = leftOver(3);
    const read = readRecord(JSON.stringify(record));
    if (!read.ok) throw new Error('unreadable');
    const { said } = meant(record);
    expect(said).toHaveLength(1);
    const told = decimalsMeant(read);
    const analysis = withDecimalsTold(analyseBench(told.bench), told.warnings);
    const blamed = verifyTube(analysis, analysis.tubes[0]!, 'helium').blame;
    expect(blamed.filter(({ kind }) => kind === 'decimals').map(({ message }) => message)).toEqual(said);
    expect(JSON.stringify(buildReport(analysis, { file: 'a.json', generatedOn: null }))).toContain(
      JSON.stringify(said[0]).slice(1, -1),
    );
    const onScreen = computation.analyse(formOf(read.record)).warnings;
    expect(onScreen.filter(({ code }) => code === 'decimals').map(({ message }) => message)).toEqual(said);
  });

  test('are not spoken of where they can be nothing else, or nothing beside them has minutes', () => {
    const calculated = written(() => 228.75);
    expect(meant(leftOver(3, written(signed), calculated)).said).toEqual([]);
    const degreesOnly = written((arcmin) => `${(arcmin / 60).toFixed(2)}°`);
    expect(meant(leftOver(3, degreesOnly)).said).toEqual([]);
  });
});
