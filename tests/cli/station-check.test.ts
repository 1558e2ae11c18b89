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
