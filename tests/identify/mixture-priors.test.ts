/** Which two substances are tried together, how likely beforehand, and what they show; lines placed by hand. */
import { describe, expect, test } from 'vitest';
import { ANY_MIXTURE, BRIGHT_ADMIXTURE, STARTING_GAS, USUAL_PAIR } from '../../src/identify/assumptions.ts';
import {
  isStartingPair,
  likelyAdmixtures,
  mixtureOf,
  withStartingGas,
} from '../../src/identify/evidence/mixtures.ts';
import type { ModelLine } from '../../src/identify/spectrum/expected-lines.ts';
import type { TubeSpectrum } from '../../src/lines/spectrum.ts';
import { startingGases, tubeNamed } from '../../src/lines/table.ts';

const tube = (name: string): TubeSpectrum => tubeNamed(name)!;

describe('two substances in one tube', () => {
  test('any pair is as likely as another, one that is sold or stays so eight times as much, in either order', () => {
    const any = ANY_MIXTURE / 29;
    expect(mixtureOf(tube('helium'), tube('krypton'), 30).logPrior).toBeCloseTo(Math.log(any), 12);
    for (const [main, admixture] of [
      ['helium', 'hydrogen'],
      ['hydrogen', 'helium'],
      ['cadmium', 'mercury'],
    ] as const)
      expect(mixtureOf(tube(main), tube(admixture), 30).logPrior).toBeCloseTo(Math.log(any * USUAL_PAIR), 12);
    // Each of a pair of its own, with a third.
    expect(mixtureOf(tube('hydrogen'), tube('mercury'), 30).logPrior).toBeCloseTo(Math.log(any), 12);
  });

  test('show the lines of both, ascending, those of the admixture fainter and of an unknown strength of their own', () => {
    const [helium, krypton] = [tube('helium'), tube('krypton')];
    const { spectrum } = mixtureOf(helium, krypton, 30);
    expect(spectrum.substance).toBe('helium');
    expect(spectrum.lines).toHaveLength(helium.lines.length + krypton.lines.length);
    const nm = spectrum.lines.map(({ wavelengthNm }) => wavelengthNm);
    expect(nm).toEqual([...nm].sort((a, b) => a - b));
    for (const { wavelengthNm, prominence, substance, component } of spectrum.lines) {
      const own = (substance === 'krypton' ? krypton : helium).lines.find(
        (line) => line.wavelengthNm === wavelengthNm,
      )!;
      expect(prominence).toBeCloseTo(own.prominence - (substance === 'krypton' ? 0.7 : 0), 12);
      expect(component.startsWith('krypton, ')).toBe(substance === 'krypton');
    }
    const strengths = spectrum.components.map(({ strengthSd }) => strengthSd);
    const added = krypton.components.map(({ strengthSd }) => (strengthSd > 0 ? strengthSd : 1));
    expect(strengths).toEqual([...helium.components.map(({ strengthSd }) => strengthSd), ...added]);
  });

  test('a metal lamp has each gas that it may be started with, alike likely, and the same again when asked again', () => {
    const found = withStartingGas(tube('sodium'));
    expect(found.map(({ admixture }) => admixture.substance)).toEqual(startingGases('sodium'));
    for (const { logPrior, main } of found) {
      expect(main).toBe(tube('sodium'));
      expect(logPrior).toBeCloseTo(Math.log(STARTING_GAS.chance / 2), 12);
    }
    expect(withStartingGas(tube('sodium'))).toBe(found);
    expect(found[0]!.spectrum).toBe(found[0]!.spectrum);
    expect(withStartingGas(tube('helium'))).toEqual([]);
    for (const [one, other, is] of [
      ['sodium', 'neon', true],
      ['neon', 'sodium', true],
      ['mercury', 'neon', false],
      ['neon', 'argon', false],
    ] as const)
      expect(isStartingPair(tube(one), tube(other))).toBe(is);
  });
});

describe('an admixture is likely', () => {
  const lineAt = (ordinate: number, prominence = 0) => ({ ordinate, prominence }) as ModelLine;
  const other = (substance: string, ...lines: ModelLine[]) => ({
    tube: { substance } as TubeSpectrum,
    lines,
  });
  const named = (others: Parameters<typeof likelyAdmixtures>[0], most = 9) =>
    likelyAdmixtures(others, [10, 20, 30], 1, most).map(({ substance }) => substance);

  test('that meets two readings at least with bright lines', () => {
    const faint = BRIGHT_ADMIXTURE - 0.01;
    expect(
      named([
        other('two', lineAt(10.9), lineAt(19.1)),
        other('one', lineAt(10), lineAt(25)),
        other('beyond', lineAt(11.1), lineAt(20)),
        other('faint', lineAt(10), lineAt(20, faint)),
        other('bright enough', lineAt(10), lineAt(20, faint + 0.02)),
        other('one line for one reading', lineAt(10), lineAt(10.1)),
      ]),
    ).toEqual(['two', 'bright enough']);
  });

  test('most that meet most, and of as many those with fewer bright lines; so many as are asked for', () => {
    const others = [
      other('two and many', lineAt(10), lineAt(20), lineAt(50), lineAt(60)),
      other('two', lineAt(10), lineAt(30)),
      other('three', lineAt(10), lineAt(20), lineAt(30), lineAt(70), lineAt(80)),
    ];
    expect(named(others)).toEqual(['three', 'two', 'two and many']);
    expect(named(others, 1)).toEqual(['three']);
  });
});
