/** Which two substances are tried together, how likely beforehand, and what they show; lines placed by hand. */
import { describe, expect, test } from 'vitest';
import {
  ANY_MIXTURE,
  BRIGHT_ADMIXTURE,
  ROOM_LIGHT,
  STARTING_GAS,
  USUAL_PAIR,
} from '../../src/identify/assumptions.ts';
import {
  areCompanions,
  companionOf,
  likelyAdmixtures,
  mixtureOf,
  withCompanions,
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

  test('a metal lamp has each gas that it may be started with, alike likely, then mercury of the room', () => {
    const found = withCompanions(tube('sodium'));
    expect(found.map(({ admixture }) => admixture.substance)).toEqual([
      ...startingGases('sodium'),
      'mercury',
    ]);
    for (const { logPrior, main, admixture } of found) {
      expect(main).toBe(tube('sodium'));
      const chance = admixture.substance === 'mercury' ? ROOM_LIGHT.chance : STARTING_GAS.chance / 2;
      expect(logPrior).toBeCloseTo(Math.log(chance), 12);
    }
    expect(withCompanions(tube('sodium'))).toBe(found);
    expect(found[0]!.spectrum).toBe(found[0]!.spectrum);
  });

  test('mercury is no light of the room beside itself, its starting gas, or what is sold together with it', () => {
    const names = (name: string) => withCompanions(tube(name)).map(({ admixture }) => admixture.substance);
    expect(names('helium')).toEqual(['mercury']);
    expect(names('mercury')).toEqual(['argon']);
    expect(names('cadmium')).toEqual(['argon']);
    for (const none of ['neon', 'argon', 'mercury-cadmium']) expect(names(none)).not.toContain('mercury');
    for (const [one, other, what, either] of [
      ['sodium', 'neon', 'starting-gas', true],
      ['neon', 'sodium', null, true],
      ['helium', 'mercury', 'room-light', true],
      ['mercury', 'helium', null, true],
      ['mercury', 'neon', null, false],
      ['neon', 'argon', null, false],
    ] as const) {
      expect(companionOf(tube(one), tube(other))).toBe(what);
      expect(areCompanions(tube(one), tube(other))).toBe(either);
    }
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
