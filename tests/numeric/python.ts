/** A general-purpose reference library in the same run: numpy and scipy, where this machine has them. */
import { execFileSync } from 'node:child_process';

export const pythonMissing = (() => {
  try {
    execFileSync('python3', ['-c', 'import numpy, scipy'], { stdio: 'ignore' });
    return false;
  } catch {
    process.stderr.write(
      'notice: python3 with numpy and scipy is missing; outside comparisons are skipped\n',
    );
    return true;
  }
})();

/** Runs a script that finds its input in `given` and leaves its answer in `answer`. */
export function python<Answer>(script: string, given: unknown): Answer {
  const whole = `import json, sys\ngiven = json.load(sys.stdin)\n${script}\nprint(json.dumps(answer))`;
  const printed = execFileSync('python3', ['-c', whole], { input: JSON.stringify(given), encoding: 'utf8' });
  return JSON.parse(printed) as Answer;
}

/** Largest relative difference of two lists; 0 against 0 is none. */
export function largestDifference(values: readonly number[], reference: readonly number[]): number {
  if (values.length !== reference.length) throw new RangeError('lists of different lengths');
  return Math.max(
    ...values.map((value, i) => {
      const off = Math.abs(value - reference[i]!);
      return off === 0 ? 0 : off / Math.abs(reference[i]!);
    }),
  );
}
