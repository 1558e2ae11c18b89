/** Benches measured by others: readings as published, wavelengths from the line table. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import type { Analysis } from '../../src/analysis/types.ts';
import { readRecord } from '../../src/record/read-record.ts';
import drum from './measured/drum-mercury-neon-hydrogen.json' with { type: 'json' };
import mercury from './measured/mercury-both-sides.json' with { type: 'json' };
import mercuryCadmium from './measured/mercury-cadmium-both-sides.json' with { type: 'json' };

function analyse({ record }: { record: unknown }): Analysis {
  const result = readRecord(JSON.stringify(record));
  if (!result.ok)
    throw new Error(result.problems.map(({ place, message }) => `${place}: ${message}`).join('\n'));
  return analyseBench(result.bench);
}

/** Distance of each reading of the tube from a true wavelength, in its standard uncertainty. */
const missesInU = (analysis: Analysis, trueNm: readonly number[]): number[] =>
  analysis.tubes[0]!.lines.map((line, k) => (line.wavelengthNm! - trueNm[k]!) / line.standardUncertaintyNm!);

const statuses = (analysis: Analysis) => analysis.calibration.lines.map((line) => line.status);

describe('mercury on both sides (Galey and Stanceu)', () => {
  const analysis = analyse(mercury);

  test('the curve passes through the seven lines to about the circle’s half minute', () => {
    expect(statuses(analysis)).toEqual(new Array(7).fill('used'));
    expect(analysis.calibration.rms).toBeLessThan(0.8);
  });
});

describe('mercury-cadmium lamp on both sides, two observers (Ehrhard and Aurich)', () => {
  const analysis = analyse(mercuryCadmium);

  test('the mercury lines lie on the curve to 1.5′', () => {
    expect(statuses(analysis)).toEqual(new Array(4).fill('used'));
    expect(analysis.calibration.rms).toBeLessThan(1.5);
  });

  test('the other lines of the lamp have the wavelengths of cadmium (NIST SRD 108)', () => {
    for (const miss of missesInU(analysis, [643.85, 508.58, 479.99, 467.81]))
      expect(Math.abs(miss)).toBeLessThan(2.5);
  });

  test('they are identified as cadmium', () => {
    expect(analysis.tubes[0]!.verdict).toMatchObject({ kind: 'identified', substance: 'cadmium' });
  });
});

describe('drum scale with mercury, neon and hydrogen (Ivanov)', () => {
  const analysis = analyse(drum);
  const misprinted = analysis.calibration.lines.find((line) => line.statedWavelengthNm === 633.4)!;

  test('neon 633.4, printed with the reading of 638.3, is announced', () => {
    expect(misprinted.status).not.toBe('used');
    expect(misprinted.message).toContain('633.4');
  });

  test('the other 32 lines are left in peace and lie on the curve to the 5 divisions that the source states', () => {
    const others = analysis.calibration.lines.filter((line) => line !== misprinted);
    expect(others).toHaveLength(32);
    expect(others.map((line) => line.status)).toEqual(new Array(32).fill('used'));
    expect(analysis.calibration.rms).toBeLessThan(5);
  });

  test('the Balmer lines come out within 3u; the source’s own fit has Hα 1.9 nm short as well', () => {
    const misses = missesInU(analysis, [656.28, 486.13, 434.05, 410.17]);
    for (const miss of misses) expect(Math.abs(miss)).toBeLessThan(3);
    expect(misses[0]).toBeLessThan(0);
  });

  test('the tube is hydrogen', () => {
    expect(analysis.tubes[0]!.verdict).toMatchObject({ kind: 'identified', substance: 'hydrogen' });
  });
});
