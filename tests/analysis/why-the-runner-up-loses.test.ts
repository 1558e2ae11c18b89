/** Where every reading told apart speaks for the runner-up, the sentences still say why it loses. */
import { expect, it } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { benchOf } from '../calibrate/glass-bench.ts';

const known: readonly (readonly [number, string])[] = [
  // Half a degree missed, as at the bench that showed it.
  [404.66, "231°48'"],
  [435.83, "231°26'"],
  [491.61, "230°23'"],
  [546.07, "229°40'"],
  [576.96, "229°22'"],
  [579.07, "229°21'"],
  [623.44, "228°59'"],
];
// An invented tube, its sixth reading nearer to a line of xenon than to neon's.
const read = [
  { readings: ['228 44'], color: 'red' },
  { readings: ['228 49'], color: 'red', brightness: 'strong' },
  { readings: ['228 53'], color: 'red' },
  { readings: ['228 58'], color: 'red', brightness: 'medium' },
  { readings: ['229 03'], color: 'orange' },
  { readings: ['229 08'], color: 'orange' },
  { readings: ['229 13'], color: 'yellow' },
  { readings: ['229 17'], color: 'yellow', brightness: 'strong' },
  { readings: ['229 44'], color: 'green' },
];

it('names the bright lines that the runner-up lacks before the reading that fits it better', () => {
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central: ['181 04', '181 05'],
    known: {
      lamp: 'mercury',
      lines: known.map(([wavelengthNm, text]) => ({ wavelengthNm, readings: [text] })),
    },
    unknown: { lines: read, shelf: ['neon', 'xenon'] },
  });
  const tube = analyseBench(bench).tubes[0]!;
  const runnerUp = tube.candidates.filter(({ symbol }) => symbol !== null)[1]!;
  expect([tube.candidates[0]!.substance, runnerUp.substance]).toEqual(['neon', 'xenon']);
  const named = runnerUp.missing.slice(0, 3);
  const [nm, chances] = [
    named.map(({ wavelengthNm }) => wavelengthNm.toFixed(1)),
    named.map(({ chanceSeen }) => `${(100 * chanceSeen).toFixed(1)} %`),
  ].map(([a, b, c]) => `${a}, ${b} and ${c}`);
  expect(tube.reasons[0]).toBe(
    `xenon would show ${nm} nm with chances of ${chances}; they were not written down.`,
  );
  // The sentence of its row names the same lines.
  expect(runnerUp.reasonAgainst).toMatch(/but 467, 492 and 462 nm, xenon's brightest, should have been seen/);
  expect(named.map(({ wavelengthNm }) => wavelengthNm.toFixed(0))).toEqual(['467', '492', '462']);
  expect(tube.reasons.slice(1).every((reason) => reason.endsWith('for xenon.'))).toBe(true);
  expect(tube.reasons.length).toBeGreaterThan(1);
});
