/** Numbers all through a record that are degrees.minutes, against decimal degrees that look like them. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { decimalsMeant } from '../../src/analysis/decimals-meant.ts';
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

function written(
  write: Writing,
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
  // On this circle each of them is a mark both ways.
  const asText: Writing = (arcmin) => dotted(arcmin).toFixed(2);
  const both = Array.from({ length: 60 }, (_, i) =>
    written(asText, { zeroArcmin: 180 * 60 + i, known: mercury }),
  );
  for (const record of both) {
    const { analysis, said } = meant(record);
    expect(said).toHaveLength(1);
    expect(analysis.calibration.rms).toBeLessThan(1);
  }
});
