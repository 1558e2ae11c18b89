/** What a bench was like, so that a score can tell where the program loses. */
import type { WorldBench } from './simulate.ts';

const share = (bench: WorldBench, isOne: (origin: string) => boolean): number =>
  bench.lines.filter(({ origin }) => isOne(origin)).length / bench.lines.length;

const isForeign = (origin: string) => origin === 'foreign' || origin === 'ghost';

const circumstances: readonly (readonly [name: string, holds: (bench: WorldBench) => boolean])[] = [
  ['two or three lines', ({ lines }) => lines.length <= 3],
  ['four to seven lines', ({ lines }) => lines.length >= 4 && lines.length <= 7],
  ['eight lines or more', ({ lines }) => lines.length >= 8],
  ['no foreign line', (bench) => share(bench, isForeign) === 0],
  ['foreign lines, fewer than half', (bench) => share(bench, isForeign) > 0 && share(bench, isForeign) < 0.5],
  ['foreign lines, half or more', (bench) => share(bench, isForeign) >= 0.5],
  ['a third or more of ions', (bench) => share(bench, (origin) => origin === 'ions') >= 1 / 3],
  ['hand scatters by more than a count', ({ hand, instrument }) => hand.scatter > instrument.leastCount],
  [
    'shift of all readings by more than a count',
    ({ shift, instrument }) => Math.abs(shift) > instrument.leastCount,
  ],
  ['all lines seen are written down', ({ isComplete }) => isComplete],
  ['colours noted', ({ words }) => words !== null],
  ['scale instead of a circle', ({ instrument }) => instrument.method === 'scale'],
];

export const circumstanceNames: readonly string[] = circumstances.map(([name]) => name);

export const circumstancesOf = (bench: WorldBench): string[] =>
  circumstances.filter(([, holds]) => holds(bench)).map(([name]) => name);
