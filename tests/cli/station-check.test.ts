import { describe, expect, it } from 'vitest';
import { checkStation } from '../../src/analysis/station-check.ts';
import { analysis, bench, calibration, straightCurve } from './analysis-fixture.ts';

const week = (
  curve: Parameters<typeof straightCurve>[0] = {},
  rest: { centralDeg?: number; settingScatter?: number } = {},
) =>
  analysis([], {
    bench: bench({ central: [{ kind: 'one-side', windows: [rest.centralDeg ?? 100] }] }),
    calibration: calibration({ curve: straightCurve(curve), settingScatter: rest.settingScatter ?? 0.5 }),
  });

describe('the station check', () => {
  it.each([
    ['nothing', week(), [], /as it was/],
    [
      'a central image two degrees on',
      week({}, { centralDeg: 102 }),
      ['central-moved'],
      /central image has moved/,
    ],
    ['deviations shifted alike', week({ offset: 5 }), ['readings-shifted'], /shifted alike/],
    ['another dispersion', week({ slope: -1.1 }), ['prism-changed'], /prism swapped/],
    ['a scatter three times as large', week({}, { settingScatter: 1.5 }), ['scatter-worse'], /scatter more/],
  ])('finds %s', (_what, now, findings, sentence) => {
    const check = checkStation(week(), now);
    expect(check.findings).toEqual(findings);
    expect(check.sentence).toMatch(sentence);
  });

  it('measures the movement of the central image the short way round the circle', () => {
    const check = checkStation(week({}, { centralDeg: 359.9 }), week({}, { centralDeg: 0.1 }));
    expect(check.central?.value).toBeCloseTo(12, 9);
  });

  it('adds the uncertainties of both weeks', () => {
    const check = checkStation(week({ u: 0.3 }), week({ u: 0.4 }));
    // Fully correlated along each curve: the shift has the full variance, the stretch none.
    expect(check.curve?.shift.standardUncertainty).toBeCloseTo(0.5, 9);
    expect(check.curve?.commonRangeNm).toEqual([450, 650]);
  });

  it('tells a shift of all readings from a stretch of the spectrum', () => {
    const shifted = checkStation(week(), week({ offset: 5 })).curve!;
    expect(shifted.shift.value).toBeCloseTo(5, 9);
    expect(shifted.stretch.value).toBeCloseTo(0, 9);
    // A tenth of a minute more for each nm away from 550, where both curves are at 3000: 20' over 450 to 650 nm.
    const stretched = checkStation(week(), week({ slope: -1.1 })).curve!;
    expect(stretched.shift.value).toBeCloseTo(0, 9);
    expect(stretched.stretch.value).toBeCloseTo(20, 9);
  });

  it('takes the errors of places far apart on the curve as they are', () => {
    const independent = (u: number) => {
      const curve = { ...straightCurve(), covariance: (a: number, b: number) => (a === b ? u * u : 0) };
      return analysis([], { calibration: calibration({ curve }) });
    };
    const { shift, stretch } = checkStation(independent(0.3), independent(0.4)).curve!;
    expect(shift.standardUncertainty).toBeCloseTo(0.5 / Math.sqrt(3), 9);
    expect(stretch.standardUncertainty).toBeCloseTo(0.5 * Math.SQRT2, 9);
  });

  it('reports a change from three standard uncertainties on, and twice the scatter', () => {
    // Both curves together are known to 0.5' as a whole.
    const at = (offset: number) => checkStation(week({ u: 0.3 }), week({ u: 0.4, offset })).findings;
    expect(at(1.49)).toEqual([]);
    expect(at(1.51)).toEqual(['readings-shifted']);
    expect(at(-1.51)).toEqual(['readings-shifted']);
    expect(checkStation(week(), week({}, { settingScatter: 1 })).findings).toEqual([]);
    expect(checkStation(week(), week({}, { settingScatter: 1.01 })).findings).toEqual(['scatter-worse']);
  });

  it('says so where the calibrations share no range', () => {
    const none = analysis([], { calibration: calibration({ curve: null }) });
    expect(checkStation(none, week())).toMatchObject({
      curve: null,
      sentence: expect.stringMatching(/no range in common/),
    });
  });

  it('refuses to compare a circle with a scale', () => {
    const scale = analysis([], { calibration: calibration({ unit: 'scale' }) });
    expect(() => checkStation(scale, week())).toThrow(RangeError);
  });
});
