/** `--as-scale` and `--base` with commands that have something else beside them. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exampleFile, whichgas, withFiles } from './run-program.ts';

const bench = readFileSync(exampleFile('harbour-lane-bench-2.json'));

describe('a circle taken as a scale', () => {
  it('has its calibration of another record taken as one too', () =>
    withFiles({ 'a.json': bench, 'b.json': bench }, (cwd) => {
      const own = whichgas(['identify', 'a.json', '--as-scale'], { cwd });
      const other = whichgas(['identify', 'a.json', '--as-scale', '--calibration', 'b.json'], { cwd });
      expect({ code: own.code, err: own.err }).toEqual({ code: 0, err: '' });
      expect({ code: other.code, err: other.err }).toEqual({ code: 0, err: '' });
    }));

  it('prints the s of each line, and by the formula below the table it gives the wavelength', () =>
    withFiles({ 'a.json': bench }, (cwd) => {
      const { out } = whichgas(['calibrate', 'a.json', '--as-scale'], { cwd });
      const [, lambda0, strength, zero] = /λ = ([\d.]+) nm \+ ([\d.]+) nm\/\(s - ([\d.]+)\)/
        .exec(out)!
        .map(Number);
      const worst = Number(/at most ([\d.]+) nm from the curve/.exec(out)![1]);
      const rows = [...out.matchAll(/^\d +\d+°\d+' +(\d+\.\d{3}) +(\d+\.\d\d) /gm)];
      expect(rows).toHaveLength(8);
      for (const [, s, stated] of rows)
        expect(Math.abs(lambda0! + strength! / (Number(s) - zero!) - Number(stated))).toBeLessThan(worst + 2);
    }));

  it.each([
    ['calibrate', []],
    ['report', ['--out', 'r.md']],
  ])('leaves a base without use, and %s says so', (command, flags) =>
    withFiles({ 'a.json': bench }, (cwd) => {
      const { code, err } = whichgas([command, 'a.json', '--base', '40', '--as-scale', ...flags], { cwd });
      expect(code).toBe(0);
      expect(err).toMatch(/a\.json: --base is not used: on a scale there is no dispersion/);
    }),
  );
});
