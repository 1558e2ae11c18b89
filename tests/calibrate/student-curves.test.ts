/** The formulae that a student can use: what is printed is evaluated, and gives the curve back. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { fitHartmann } from '../../src/calibrate/compare/hartmann.ts';
import { choiceSentence } from '../../src/words/calibration-findings.ts';
import { pocketFormula, polynomialFormula } from '../../src/words/pocket-formula.ts';
import { benchOf, GlassReader, heliumNm, knownLamp, linesAt, recordOf } from './glass-bench.ts';

const point = (wavelengthNm: number, ordinate: number) => ({
  wavelengthNm,
  wavelengthVariance: 0,
  ordinate,
  resolutionVariance: 1,
  settingShare: 1,
});

/** A formula as printed, evaluated as a pocket calculator would. */
function evaluated(text: string, x: number): number {
  const [, right] = text.split(/ = (.*)/s);
  const plain = right!
    .replace(/ with .*/, '')
    .replace(/ \(u [^)]*\)/g, '')
    .replace(/ nm·°| nm(?=[ +/-]|$)|°/g, '')
    .replace(/([δs])(?=[ )])/g, 'x')
    .replace(/²/g, '**2')
    .replace(/³/g, '**3')
    .replace(/·/g, '*');
  return Number(new Function('x', `return ${plain}`)(x));
}

describe("Hartmann's formula", () => {
  test('finds its own constants in readings without error', () => {
    const ordinate = (nm: number): number => 2700 + 69_000 / (nm - 205);
    const fit = fitHartmann(heliumNm.map((nm) => point(nm, ordinate(nm))))!;
    expect(fit.lambda0Nm).toBeCloseTo(205, 4);
    expect(fit.strength / 69_000).toBeCloseTo(1, 6);
    expect(fit.ordinate0).toBeCloseTo(2700, 3);
    expect(fit.wavelengthAt(ordinate(550))).toBeCloseTo(550, 5);
  });

  test('its uncertainties are those of a linear model at the solution, checked by shifting one reading', () => {
    // The sum over readings of (change of a constant per unit of that reading)², times s²: GUM 5.1.2.
    const scatter = [0.4, -0.3, 0.5, -0.6, 0.1, 0.2, -0.5, 0.3];
    const points = heliumNm.map((nm, i) => point(nm, 2700 + 69_000 / (nm - 205) + scatter[i]!));
    const fit = fitHartmann(points)!;
    const s2 =
      points.reduce((sum, p) => sum + (p.ordinate - fit.ordinateAt(p.wavelengthNm)) ** 2, 0) / (8 - 3);
    const step = 1e-3;
    const variance = points.reduce((sum, p, i) => {
      const moved = points.with(i, { ...p, ordinate: p.ordinate + step });
      return sum + ((fitHartmann(moved)!.lambda0Nm - fit.lambda0Nm) / step) ** 2;
    }, 0);
    expect(fit.u![0] / Math.sqrt(s2 * variance)).toBeCloseTo(1, 1);
  });

  test('three lines are met exactly, and its constants have no uncertainty then', () => {
    const points = [706.52, 587.56, 447.15].map((nm) => point(nm, 2700 + 69_000 / (nm - 205)));
    const fit = fitHartmann(points)!;
    expect(fit.u).toBeNull();
    for (const { wavelengthNm, ordinate } of points)
      expect(fit.wavelengthAt(ordinate)).toBeCloseTo(wavelengthNm, 3);
    expect(fitHartmann(points.slice(1))).toBeNull();
  });
});

describe('what is printed gives the curve back', () => {
  const { calibration } = analyseBench(benchOf(recordOf(new GlassReader())));
  const curve = calibration.curve!;
  const within = [420, 450, 500, 550, 600, 650, 700];

  test('the pocket formula, to the difference that is said', () => {
    const text = pocketFormula(calibration.hartmann!, 'arcmin');
    for (const nm of within) {
      const off = Math.abs(evaluated(text, curve.ordinateAt(nm) / 60) - nm);
      expect(off).toBeLessThan(calibration.hartmann!.worstNm + 0.05);
    }
    expect(calibration.hartmann!.worstNm).toBeLessThan(1.5);
  });

  test('the polynomial, to a few of its residuals', () => {
    const { polynomial } = calibration;
    const text = polynomialFormula(polynomial!, 'arcmin');
    for (const nm of within) {
      const arcmin = 60 * evaluated(text, (1000 / nm) ** 2);
      expect(Math.abs(arcmin - curve.ordinateAt(nm))).toBeLessThan(4 * polynomial!.rms + 0.5);
    }
  });
});

describe('why this curve', () => {
  test('twelve lines of which one alone holds the red are not called twelve that leave the shape to the catalogue', () => {
    const violet = [388.86, 396.47, 402.62, 412.08, 414.38, 438.79, 443.76, 447.15, 471.31, 492.19, 501.57];
    const lamp = knownLamp(new GlassReader(), { lamp: 'helium', lines: linesAt([...violet, 706.52]) });
    const { choice } = analyseBench(benchOf(recordOf(new GlassReader(), { known: lamp }))).calibration;
    expect(choice).not.toMatch(/12 known lines leave/);
  });

  test('and where none can be left out, that is what is said', () => {
    const lonely = choiceSentence(
      { model: 'prism curve', leaveOneOutRms: null, lines: 12, other: null },
      'arcmin',
    );
    expect(lonely).toMatch(/one of the 12 known lines alone/);
    const few = choiceSentence(
      { model: 'prism curve', leaveOneOutRms: null, lines: 2, other: null },
      'arcmin',
    );
    expect(few).toMatch(/2 known lines leave its shape to the catalogue/);
  });
});
