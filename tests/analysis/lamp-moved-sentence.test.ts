import { expect, test } from 'vitest';
import { lampMovedSentence } from '../../src/words/lamp-moved.ts';
import { benchOf, GlassReader, heliumNm, knownLamp, mercuryNm, recordOf } from '../calibrate/glass-bench.ts';

const reader = new GlassReader({ centralDeg: 181 + 4 / 60 });
const lamp = (name: string, wavelengthsNm: readonly number[]) =>
  knownLamp(reader, { lamp: name, lines: wavelengthsNm.map((nm) => ({ nm, slipArcmin: 0 })) });
const bench = benchOf(recordOf(reader, { known: [lamp('helium', heliumNm), lamp('mercury', mercuryNm)] }));
const move = { lampIndex: 1, shift: 8, u: 0.4, centralsBefore: bench.central.length };

test.each([
  [0.56, 'than the curve of helium says, with a chance of 56.0 %: was the telescope'],
  [0.799, 'with a chance of 79.9 %: was'],
  [0.8, 'than the curve of helium says: was the telescope'],
])('a move with probability %d is told with its chance where that is not sure', (probability, said) => {
  expect(lampMovedSentence(bench, move, probability)).toContain(said);
});
