/** A tube may lead through another understanding of the known lines than the likeliest. */
import { expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { tubeNamed } from '../../src/lines/table.ts';
import { identificationColumns } from '../score/identification-plan.ts';
import { benchSeed } from '../score/options.ts';
import { Random } from '../score/random.ts';
import { simulateBench } from '../score/simulate-bench.ts';

test('magnesium behind misnamed known lines is not given up for being hopeless through the likeliest curve', () => {
  const column = identificationColumns.find(({ name }) => name === 'mixed, misnamed known lines')!;
  const random = new Random(benchSeed(7, column.name, 43));
  const tube = tubeNamed('magnesium')!;
  let simulated = null;
  while (simulated === null) {
    const plan = column.draw(random, random.pick(['helium', 'mercury'] as const));
    const drawn = simulateBench(random, { ...plan, tube });
    if (drawn.truth.fault !== null && drawn.truth.unknown.length >= 2) simulated = drawn;
  }
  const { candidates } = analyseBench(simulated.bench).tubes[0]!;
  expect(candidates[0]!.substance).toBe('magnesium');
  expect(candidates[0]!.probability).toBeGreaterThan(0.9);
});
