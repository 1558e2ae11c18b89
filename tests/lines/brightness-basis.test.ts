import { describe, expect, it } from 'vitest';
import { brightnessFile } from '../../src/lines/brightness-file.ts';
import { lineFile } from '../../src/lines/line-file.ts';
import { errorSd, settledLines } from '../../src/lines/prominence.ts';
import { provenanceOf } from '../../src/lines/provenance.ts';
import { tubeNamed } from '../../src/lines/table.ts';
import { tubeFile } from '../../src/lines/tube-file.ts';
import { brightnessFaults } from './line-faults.ts';

const basisAt = (substance: string, nm: number) =>
  provenanceOf(tubeNamed(substance)!.lines.find(({ wavelengthNm }) => Math.abs(wavelengthNm - nm) < 0.06)!)
    .brightnessBasis;

describe('what the brightness of a line is known from', () => {
  it.each([
    ['hydrogen', 601.83, 'practice'],
    ['argon', 738.4, 'measured'],
    ['zinc', 472.22, 'unnamed source'],
    ['caesium', 455.53, 'published'],
    ['helium', 587.56, 'measured'],
  ])('%s %f: %s', (substance, nm, basis) => {
    expect(basisAt(substance, nm)).toBe(basis);
  });

  it('a statement that nobody can look up is known worse than a publication with a name', () => {
    const variances = (substance: string, source: string) => {
      const file = {
        ...brightnessFile,
        measured: [],
        reads: [],
        statements: brightnessFile.statements.filter(
          (each) => each.source === source && each.substance === substance,
        ),
      };
      return settledLines(lineFile, tubeFile, file).flatMap(({ observations }) =>
        observations.filter(({ kind }) => kind === 'statement').map(({ variance }) => variance),
      );
    };
    const named = variances('hydrogen', 'ramsay-1896');
    const unnamed = variances('hydrogen', 'lab-manual');
    const practice = variances('hydrogen', 'lab-practice');
    expect([named.length, unnamed.length, practice.length]).toEqual([3, 2, 3]);
    for (const variance of [...unnamed, ...practice]) {
      expect(variance).toBeCloseTo(errorSd.memory ** 2, 12);
      expect(variance).toBeGreaterThan(Math.max(...named));
    }
  });

  it('a source that the file calls unnamed counts as one', () => {
    expect(brightnessFaults(brightnessFile, tubeFile)).toEqual([]);
    const { 'lab-manual': _, ...weakSources } = brightnessFile.weakSources;
    expect(brightnessFaults({ ...brightnessFile, weakSources }, tubeFile)).toEqual([
      'lab-manual: whether it has a name is told differently in sources and in weakSources.',
    ]);
  });
});
