/** What glows in each tube: spectra and how their strengths go together (common practice, no source). */
import type { Random } from '../random.ts';
import { contents } from './assumptions.ts';

/**
 * `main`: as the facts say. `ions`: full in a third of tubes. `ratio`: the tube's one unknown ratio moves it up.
 * Every part of a tube that has the same role moves together.
 */
interface Part {
  readonly spectrum: string;
  readonly role: 'main' | 'ions' | 'ratio';
  readonly level?: number;
}

export interface WorldTube {
  readonly substance: string;
  readonly parts: readonly Part[];
  readonly startingGases?: readonly string[];
}

const main = (spectrum: string, level = 0): Part => ({ spectrum, role: 'main', level });
const ions = (spectrum: string, level = 0): Part => ({ spectrum, role: 'ions', level });
const ratio = (spectrum: string, level = 0): Part => ({ spectrum, role: 'ratio', level });

/** `ionLevel`: below 0 where only a violent discharge shows the ion. */
const atomAndIon = (
  substance: string,
  symbol: string,
  startingGases?: readonly string[],
  ionLevel = 0,
): WorldTube => ({
  substance,
  parts: [main(`${symbol} I`), ions(`${symbol} II`, ionLevel)],
  ...(startingGases ? { startingGases } : {}),
});
const atom = (substance: string, symbol: string, startingGases?: readonly string[]): WorldTube => ({
  substance,
  parts: [main(`${symbol} I`)],
  ...(startingGases ? { startingGases } : {}),
});

const nitrogenParts = [
  main('N2 first positive'),
  ratio('N2 second positive'),
  ions('N2+ first negative'),
  main('N I', -4),
  ions('N II', -4),
];

export const worldTubes: readonly WorldTube[] = [
  { substance: 'hydrogen', parts: [main('H I'), ratio('H2', -0.5)] },
  { substance: 'deuterium', parts: [main('D I')] },
  atomAndIon('helium', 'He', undefined, -3),
  atomAndIon('neon', 'Ne', undefined, -2),
  atomAndIon('argon', 'Ar'),
  atomAndIon('krypton', 'Kr'),
  atomAndIon('xenon', 'Xe'),
  atomAndIon('mercury', 'Hg', ['Ar I'], -2),
  atom('sodium', 'Na', ['Ne I', 'Ar I']),
  atom('potassium', 'K', ['Ar I']),
  atom('lithium', 'Li', ['Ar I']),
  atom('rubidium', 'Rb', ['Ar I']),
  atom('caesium', 'Cs', ['Ar I']),
  atomAndIon('magnesium', 'Mg', ['Ne I']),
  atomAndIon('calcium', 'Ca', ['Ne I']),
  atomAndIon('strontium', 'Sr', ['Ne I']),
  atomAndIon('barium', 'Ba', ['Ne I']),
  atomAndIon('cadmium', 'Cd', ['Ar I', 'Ne I']),
  atomAndIon('zinc', 'Zn', ['Ar I', 'Ne I']),
  atom('indium', 'In', ['Ar I']),
  atom('thallium', 'Tl', ['Ar I']),
  atomAndIon('sulfur', 'S'),
  atomAndIon('chlorine', 'Cl'),
  atomAndIon('bromine', 'Br'),
  atomAndIon('iodine', 'I'),
  { substance: 'nitrogen', parts: nitrogenParts },
  { substance: 'oxygen', parts: [main('O I'), ratio('O2+ first negative'), ions('O II', -2)] },
  {
    substance: 'carbon dioxide',
    parts: [
      main('CO Angstrom'),
      main('CO Herzberg', -2),
      main('CO third positive', -2),
      main('CO triplet', -1.5),
      ratio('C2 Swan', -2),
      ratio('CN violet', -4),
      ratio('CH 4300 A', -4),
      ions('CO+ comet tail', -1.5),
      main('C I', -4),
      ions('C II', -4),
      main('O I', -3),
    ],
  },
  { substance: 'water vapour', parts: [main('H I'), main('O I', -4)] },
  { substance: 'air', parts: [...nitrogenParts, main('O I', -3.5)] },
];

/** Tubes that show the same visible lines: naming one of them for another is no error, here or in the oracle. */
const alike: readonly (readonly string[])[] = [
  ['hydrogen', 'deuterium', 'water vapour'],
  ['nitrogen', 'air'],
];

export const isAlike = (one: string, other: string): boolean =>
  one === other || alike.some((group) => group.includes(one) && group.includes(other));

const impurities: readonly (readonly string[])[] = [
  ['H I'],
  ['Hg I'],
  ['N2 first positive', 'N2 second positive'],
  ['O I'],
  ['CO Angstrom', 'C2 Swan'],
];

/** A spectrum that this tube shows, moved by `level` (natural logarithm). */
export interface Glow {
  readonly spectrum: string;
  readonly level: number;
  readonly origin: Origin;
}

/** Foreign: an impurity, starting gas or a neighbour's lamp. */
export type Origin = Part['role'] | 'foreign';

/** One tube of this kind: how strong its ions, its molecules, its impurities are. */
export function drawGlow(random: Random, tube: WorldTube): Glow[] {
  const ionLevel = random.chance(contents.fullIonsChance)
    ? 0
    : -random.between(contents.weakIonsBy.from, contents.weakIonsBy.to);
  const ratioLevel = random.normal(0, contents.ratioSpread);
  const own = tube.parts.map(({ spectrum, role, level = 0 }) => ({
    spectrum,
    origin: role,
    level: level + { main: 0, ions: ionLevel, ratio: ratioLevel }[role],
  }));
  const foreign: Glow[] = [];
  const addForeign = (spectrum: string, level: number) => {
    foreign.push({ spectrum, level, origin: 'foreign' });
  };
  if (random.chance(contents.impurityChance)) {
    const level = random.normal(contents.impurity.mean, contents.impurity.spread);
    for (const spectrum of random.pick(impurities)) addForeign(spectrum, level);
  }
  if (tube.startingGases !== undefined && random.chance(contents.startingGasChance)) {
    const level = random.normal(contents.startingGas.mean, contents.startingGas.spread);
    addForeign(random.pick(tube.startingGases), level);
  }
  if (random.chance(contents.neighbourChance)) {
    const level = random.normal(contents.impurity.mean, contents.impurity.spread);
    addForeign(random.pick(['Hg I', 'Na I']), level);
  }
  // What is in the tube anyway is no impurity of it.
  const owned = new Set(own.map(({ spectrum }) => spectrum));
  return [...own, ...foreign.filter(({ spectrum }) => !owned.has(spectrum))];
}
