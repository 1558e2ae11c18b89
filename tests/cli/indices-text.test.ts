/** The prism's indices as `calibrate` prints them. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { roundWithUncertainty } from '../../src/numeric/round-uncertainty.ts';
import { textWidth } from '../../src/present/text-width.ts';
import { calibrated } from './contract.ts';
import { exampleFile, jsonLines, whichgas } from './run-program.ts';

const file = exampleFile('harbour-lane-bench-2.json');

describe('calibrate with the apex angle known', () => {
  const text = whichgas(['calibrate', '--base', '40', file]).out;
  const [object] = jsonLines(whichgas(['calibrate', '--json', '--base', '40', file])).map((line) =>
    z.parse(calibrated, line),
  );
  const indices = object!.calibration.indices!;

  it('prints the numbers of --json, rounded together with their uncertainty', () => {
    expect(indices.lines).toHaveLength(8);
    for (const { wavelengthNm, n, u, resolvingPower } of indices.lines) {
      const row = text
        .split('\n')
        .find(
          (line) =>
            line.includes(` ${wavelengthNm.toFixed(2)} `) && line.includes(roundWithUncertainty(n, u).text),
        );
      expect(row, String(wavelengthNm)).toContain(
        roundWithUncertainty(resolvingPower!.value, resolvingPower!.u).text,
      );
    }
    expect(text).toContain(`nd = ${roundWithUncertainty(indices.nd!.value, indices.nd!.u).text}`);
    expect(text).toContain(
      `Abbe number ${roundWithUncertainty(indices.abbeNumber!.value, indices.abbeNumber!.u).text}`,
    );
    expect(text).toContain('λ/Δλ, base 40 mm');
  });

  it("prints Cauchy's formula so that what is printed gives the indices back", () => {
    const [, a, b, c] = /n = ([\d.]+) \+ ([\d.]+)\/λ² \+ ([\d.]+)\/λ⁴, λ in µm/.exec(text)!.map(Number);
    for (const { wavelengthNm, n } of indices.lines) {
      const x = (1000 / wavelengthNm) ** 2;
      expect(Math.abs(a! + b! * x + c! * x * x - n)).toBeLessThan(indices.cauchy!.worst + 3e-5);
    }
  });

  it('keeps to 80 columns', () => {
    const [, ...below] = text.split('\n');
    for (const line of below) expect(textWidth(line), line).toBeLessThanOrEqual(80);
  });

  it('has the setting in the uncertainty of an apex angle from two reflected images', () => {
    const record = JSON.parse(readFileSync(file, 'utf8'));
    record.instrument.apexAngle = { readings: { left: "300°10'", right: "180°10'" } };
    const stdin = JSON.stringify(record);
    const [of] = jsonLines(whichgas(['calibrate', '--json', '-'], { stdin })).map((line) =>
      z.parse(calibrated, line),
    );
    const { apexUncertaintyDeg } = of!.calibration.indices!;
    // Resolution alone is 0.20'; a hand sets to 0.4' to 1.2' on such a circle.
    expect(60 * apexUncertaintyDeg!).toBeGreaterThan(0.35);
    expect(60 * apexUncertaintyDeg!).toBeLessThan(0.9);
    expect(whichgas(['calibrate', '-'], { stdin }).out).toContain(
      `A = 60°00' ± ${roundWithUncertainty(60, 60 * apexUncertaintyDeg!).u}'`,
    );
  });
});
