/** Readings written down coarser than the instrument reads: whole and half degrees on a vernier of 1'. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { convertReading } from '../../src/analysis/convert.ts';
import { queryKnownLines } from '../../src/analysis/query-known-lines.ts';
import { verifyTube } from '../../src/analysis/verify.ts';
import { buildReport } from '../../src/present/report/build-report.ts';
import { budgetFormula } from '../../src/words/budget-text.ts';
import { budgetOfTubeNote, writingText } from '../../src/words/rounded-readings.ts';
import { benchOf } from '../calibrate/glass-bench.ts';
import { cataloguePrism, minimumDeviationArcmin } from '../score/prism.ts';

// NIST SRD 108.
const mercury = [404.66, 435.83, 491.61, 546.07, 576.96, 579.07, 623.44, 690.75];
const helium = [447.15, 471.31, 501.57, 587.56, 667.82];
const prism = cataloguePrism('SF10', 60);

const text = (arcmin: number, step: number): string => {
  const rounded = Math.round(arcmin / step) * step;
  return `${Math.floor(rounded / 60)}°${String(rounded % 60).padStart(2, '0')}'`;
};

function analysed(
  stepOfLamp: number,
  stepOfTube: number,
  leastCount = "1'",
  central: readonly string[] = ["30°00'"],
) {
  const at = (nm: number, step: number) => text(30 * 60 + minimumDeviationArcmin(prism, nm), step);
  const line = (step: number) => (nm: number) => ({ wavelengthNm: nm, readings: [at(nm, step)] });
  const lines = helium.map((nm) => ({ readings: [at(nm, stepOfTube)] }));
  return analyseBench(
    benchOf({
      instrument: { method: 'central', leastCount },
      central,
      known: { lamp: 'mercury', lines: mercury.map(line(stepOfLamp)) },
      unknown: { lines },
    }),
  );
}

const said = ({ warnings }: ReturnType<typeof analysed>) =>
  warnings.filter(({ code }) => code === 'rounded-readings').map(({ message }) => message);
/** Errors of the tube's wavelengths in standard uncertainties. */
const errors = ({ tubes }: ReturnType<typeof analysed>) =>
  tubes[0]!.lines.map(({ wavelengthNm, standardUncertaintyNm }, i) =>
    Math.abs((wavelengthNm! - helium[i]!) / standardUncertaintyNm!),
  );

describe('readings that are all multiples of a coarser step', () => {
  test('of a tube have the uncertainty of that step, and it is said', () => {
    const analysis = analysed(1, 30);
    expect(said(analysis)).toEqual([
      expect.stringContaining("tube 1: all readings are multiples of 30', on an instrument that reads 1'"),
    ]);
    expect(Math.max(...errors(analysis))).toBeLessThan(2.5);
    expect(analysis.tubes[0]!.candidates[0]!.substance).toBe('helium');
    expect(analysis.calibration.settingScatter).toBeLessThan(1.5);
  });

  test('of a whole record too, where no list by itself is enough', () => {
    expect(said(analysed(15, 15, "5'"))).toEqual([
      expect.stringContaining("the known lines: all readings are multiples of 15'"),
      expect.stringContaining("tube 1: all readings are multiples of 15'"),
    ]);
  });

  test('are asked about with the least count that they would have, in its own unit', () => {
    const [sentence] = said(analysed(5, 5));
    expect(sentence).toContain(
      "Is its least count 5'? Then enter that; if not, write down all that it shows.",
    );
    // Where another list shows that the instrument reads finer, there is nothing to ask.
    const [beside] = said(analysed(1, 30));
    expect(beside).not.toContain('Is its least count');
    expect(beside).toContain('their uncertainty is larger. Write down all that it shows.');
    const decimals = (places: number) => (nm: number) =>
      (30 + minimumDeviationArcmin(prism, nm) / 60).toFixed(places);
    const circle = analyseBench(
      benchOf({
        instrument: { method: 'central', leastCount: '0.01°' },
        central: ['30.00'],
        known: {
          lamp: 'mercury',
          lines: mercury.map((wavelengthNm) => ({ wavelengthNm, readings: [decimals(1)(wavelengthNm)] })),
        },
        unknown: { lines: helium.map((nm) => ({ readings: [decimals(2)(nm)] })) },
      }),
    );
    expect(said(circle)).toEqual([
      expect.stringContaining('all readings are multiples of 0.1°, on an instrument that reads 0.01°'),
    ]);
  });

  test('are blamed in the check of a tube, each list with its own sentence', () => {
    const blamed = (analysis: ReturnType<typeof analysed>) =>
      verifyTube(analysis, analysis.tubes[0]!, 'helium').blame.flatMap(({ step, kind }) =>
        kind === 'rounded-readings' ? [step] : [],
      );
    expect(blamed(analysed(30, 30))).toEqual(['known', 'unknown']);
    expect(blamed(analysed(1, 30))).toEqual(['unknown']);
    expect(blamed(analysed(1, 1))).toEqual([]);
  });

  test('are converted as the tube is computed', () => {
    for (const [lamp, tube] of [
      [5, 5],
      [1, 30],
    ] as const) {
      const { bench, calibration, tubes } = analysed(lamp, tube);
      const [line] = bench.tubes[0]!.lines;
      const reading = { text: line!.texts[0]!, setting: line!.settings[0]! };
      const found = convertReading(bench, calibration, reading, [], bench, bench.tubes[0]!);
      expect(found.standardUncertaintyNm).toBeCloseTo(tubes[0]!.lines[0]!.standardUncertaintyNm!, 6);
    }
  });

  test('where one tube is rounded and another is not, a reading of neither may be rounded, and it is said', () => {
    const [{ bench, calibration }, fine] = [analysed(1, 30), analysed(1, 1)];
    const two = { ...bench, tubes: [...fine.bench.tubes, { ...bench.tubes[0]!, index: 1 }] };
    const [rounded, own] = [bench, fine.bench].map((each) => each.tubes[0]!.lines[0]!);
    const convert = (line: typeof rounded, of: (typeof two.tubes)[number] | null) =>
      convertReading(two, calibration, { text: '', setting: line!.settings[0]! }, [], two, of);
    const unnamed = convert(rounded, null);
    expect(unnamed.writing).toEqual({ what: 'perhaps-rounded', step: 30 });
    expect(unnamed.standardUncertaintyNm).toBeCloseTo(
      convert(rounded, two.tubes[1]!).standardUncertaintyNm!,
      9,
    );
    expect(writingText(two, unnamed.writing!)).toBe("taken as rounded to 30', as those of one tube are");
    const unrounded = convert(own, null);
    expect(unrounded.writing).toBeNull();
    expect(unrounded.standardUncertaintyNm).toBeCloseTo(
      convert(own, two.tubes[0]!).standardUncertaintyNm!,
      9,
    );
  });

  test('of a tube have a word of their own beside the budget of the known lines, where these are written otherwise', () => {
    const noteOf = (lamp: number, tube: number) => {
      const { bench } = analysed(lamp, tube);
      return budgetOfTubeNote(bench, bench.tubes[0]!);
    };
    // A rectangle of 30' has the standard deviation 30'/√12 (GUM 4.3.7).
    expect(noteOf(1, 30)).toMatch(
      /known lines, which are written to 1'; .* written to 30', so that .* adds 8\.7'/,
    );
    expect(noteOf(30, 30)).toBeNull();
    expect(noteOf(1, 1)).toBeNull();
    const report = buildReport(analysed(1, 30), { file: 'a.json', generatedOn: null });
    expect(JSON.stringify(report)).toContain(noteOf(1, 30));
  });

  test('leave the central image what it is: a count, and one that is apart', () => {
    const uOfImage = (analysis: ReturnType<typeof analysed>) =>
      analysis.calibration.budget.find(({ source }) => source === 'central-image')!.standardUncertainty;
    expect(uOfImage(analysed(10, 10, "1'", ["30°00'"]))).toBeGreaterThan(3);
    expect(uOfImage(analysed(10, 10, "1'", ["30°01'", "29°59'"]))).toBeLessThan(2);
    const apart = (central: readonly string[]) =>
      analysed(10, 10, "1'", central).calibration.doubts.some(({ step }) => step === 'central');
    expect(apart(["30°01'", "29°59'", "30°00'", "30°25'"])).toBe(true);
    expect(apart(["30°00'", "30°00'", "30°00'", "30°20'"])).toBe(false);
  });

  test('are asked about once for each lamp that is written otherwise', () => {
    const line = (step: number) => (nm: number) => ({
      wavelengthNm: nm,
      readings: [text(30 * 60 + minimumDeviationArcmin(prism, nm), step)],
    });
    const two = analyseBench(
      benchOf({
        instrument: { method: 'central', leastCount: "1'" },
        central: ["30°00'"],
        known: [
          { lamp: 'mercury', lines: mercury.map(line(1)) },
          { lamp: 'helium', lines: helium.map(line(30)) },
        ],
      }),
    );
    expect(said(two)).toEqual([
      expect.stringContaining("the known lines of helium: all readings are multiples of 30'"),
    ]);
    const u = two.calibration.lines.map(({ standardUncertainty }) => standardUncertainty!);
    expect(Math.max(...u.slice(0, 8))).toBeLessThan(3);
    expect(Math.min(...u.slice(8))).toBeGreaterThan(8);
  });

  test('say nothing of a reading typed finer, which is converted as it was read', () => {
    const { bench, calibration } = analysed(1, 30);
    const converted = (arcmin: number) => {
      const setting = { kind: 'one-side', windows: [arcmin / 60] } as const;
      return convertReading(bench, calibration, { text: '', setting }, [], bench, bench.tubes[0]!);
    };
    const at = Math.round((30 * 60 + minimumDeviationArcmin(prism, 587.56)) / 30) * 30;
    const [coarse, fine] = [converted(at), converted(at + 1)];
    expect(coarse.writing).toEqual({ what: 'rounded', step: 30 });
    expect(fine.writing).toEqual({ what: 'finer', step: 30 });
    expect(coarse.standardUncertaintyNm!).toBeGreaterThan(4 * fine.standardUncertaintyNm!);
    const clean = analysed(1, 1);
    const plain = convertReading(
      clean.bench,
      clean.calibration,
      { text: '', setting: { kind: 'one-side', windows: [at / 60] } },
      [],
    );
    expect(plain.writing).toBeNull();
  });

  test('stay rounded when a known line is read finer than they are', () => {
    const analysis = analysed(30, 30);
    const asked = (arcmin: number) => {
      const setting = { kind: 'one-side', windows: [arcmin / 60] } as const;
      const reading = { setting, text: '', wavelengthNm: 508.58, lamp: 0, replaces: null };
      return queryKnownLines([reading], analysis)[0];
    };
    const right = Math.round(30 * 60 + minimumDeviationArcmin(prism, 508.58));
    expect(asked(right)).toBeNull();
    expect(asked(right + 120)).not.toBeNull();
  });

  test('are told with the finer repeats among them, as finely as each was read', () => {
    const at = (nm: number) => 30 * 60 + minimumDeviationArcmin(cataloguePrism('F2', 60), nm);
    const finer = [1, 2];
    const neon = [540.06, 585.25, 594.48, 603.0, 614.31, 626.65, 640.22, 650.65, 667.83, 703.24];
    const analysis = analyseBench(
      benchOf({
        instrument: { method: 'central', leastCount: "1'" },
        central: ["30°00'"],
        known: {
          lamp: 'mercury',
          lines: mercury.map((nm) => ({ wavelengthNm: nm, readings: [text(at(nm), 1)] })),
        },
        unknown: {
          lines: neon.map((nm, i) => ({
            readings: [...(finer.includes(i) ? [text(at(nm), 1)] : []), text(at(nm), 15)],
          })),
        },
      }),
    );
    // Taken as finely read they were "none of the listed tubes".
    expect(analysis.tubes[0]!.candidates[0]!.substance).toBe('neon');
    expect(said(analysis)).toEqual([
      expect.stringMatching(
        /^tube 1: 10 of 12 readings are multiples of 15', .*: these are taken .* Write down all/,
      ),
    ]);
  });

  test('are in the budget with their step, and why', () => {
    const resolution = (analysis: ReturnType<typeof analysed>) => {
      const { budget } = analysis.calibration;
      const term = budget.find(({ source }) => source === 'resolution')!;
      return [budgetFormula(term, analysis.bench, analysis.calibration), term.standardUncertainty] as const;
    };
    const [plain, u] = resolution(analysed(1, 1));
    expect(plain).toBe("least count/√12 = 1'/√12");
    expect(u).toBeCloseTo(1 / Math.sqrt(12), 9);
    const [rounded, uRounded] = resolution(analysed(10, 10));
    expect(rounded).toContain("step of the readings/√12 = 10'/√12: ");
    expect(rounded).toContain("coarser than the least count of 1'");
    expect(uRounded).toBeCloseTo(10 / Math.sqrt(12), 9);
  });

  test('are no question where they are what the instrument shows', () => {
    expect(said(analysed(1, 1))).toEqual([]);
    expect(said(analysed(5, 5, "5'"))).toEqual([]);
    expect(said(analysed(30, 30, "30'"))).toEqual([]);
  });
});

test('a drum read to tens has the uncertainty of tens', () => {
  const drum = (nm: number, step: number) => Math.round((3000 - 4.4e5 / (nm - 180)) / step) * step;
  const of = (step: number) =>
    analyseBench(
      benchOf({
        instrument: { method: 'scale', leastCount: 1 },
        known: {
          lamp: 'mercury',
          lines: mercury.map((nm) => ({ wavelengthNm: nm, readings: [drum(nm, step)] })),
        },
        unknown: { lines: helium.map((nm) => ({ readings: [drum(nm, step)] })) },
      }),
    );
  const rounded = of(10);
  expect(said(rounded)).toHaveLength(2);
  expect(Math.max(...errors(rounded))).toBeLessThan(2);
  expect(said(of(1))).toEqual([]);
});
