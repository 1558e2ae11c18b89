/** How many keys a bench takes, and what may be left out of a reading without hiding anything. */
import { expect, it } from 'vitest';
import { analyseForm } from '../../src/tui/computation.ts';
import { demoBench } from '../../src/tui/demo-bench.ts';
import { BLANK_FORM } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const digits = (reading: unknown): string => String(reading).replace(/\D/g, '');

it('eight known and nine unknown readings take 112 keys, and nothing else has to be answered', () => {
  const bench = openBench(BLANK_FORM, undefined, analyseForm);
  let count = 0;
  const press = (keys: string): void => {
    for (const key of keys) {
      bench.typeFast(key);
      count += 1;
    }
  };
  const known = new Map(
    demoBench.known[0]!.lines.map((line) => [line.wavelengthNm, digits(line.readings[0])]),
  );
  press('18104\r');
  press(KEYS.tab);
  press('m\r');
  // The lamp's own list, as it goes on by itself: the brightest line first.
  for (const nm of [546.07, 435.83, 404.66, 579.07, 576.96]) press(`${known.get(nm)}\r`);
  // Three that are not in it, left to the program to name.
  for (const nm of [491.61, 623.44, 690.75]) press(`${known.get(nm)}\r`);
  press(KEYS.tab);
  for (const { readings } of demoBench.unknown[0]!.lines) press(`${digits(readings[0])}\r`);
  bench.compute();
  const { record } = bench.state().history;
  expect(record.known[0]?.lines.map(({ wavelengthNm = null }) => wavelengthNm)).toEqual([
    546.07,
    435.83,
    404.66,
    579.07,
    576.96,
    null,
    null,
    null,
  ]);
  expect(record.unknown[0]?.lines).toHaveLength(9);
  expect(record.unknown[0]?.lines[0]?.readings).toEqual(['228 44']);
  const { analysis } = bench.state().result!;
  expect(analysis?.calibration.lines.every(({ status }) => status === 'used')).toBe(true);
  expect(analysis?.tubes[0]?.verdict.substance).toBe('neon');
  expect(count).toBe(112);
});
