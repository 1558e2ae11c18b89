/** The benches of a score spread over processes: every process runs this same script and is sent its parts. */
import { fork } from 'node:child_process';
import type { ScoreOptions } from './options.ts';

/** Some benches of one column. */
export interface Part {
  readonly column: string;
  readonly seed: number;
  readonly from: number;
  readonly to: number;
}

const benchesInPart = 40;

/** True in a process that `scoreColumns` started. */
export const isWorker = process.send !== undefined && process.argv.includes('--worker');

/** In a worker: scores each bench of every part that is sent, until the parent disconnects. */
export function scoreParts<Row>(scoreBench: (column: string, bench: number, seed: number) => Row): void {
  process.on('message', ({ column, seed, from, to }: Part) => {
    const benches = Array.from({ length: to - from }, (_, k) => from + k);
    process.send!(benches.map((bench) => scoreBench(column, bench, seed)));
  });
}

/** In the parent: the rows of every column in the order of its benches; progress goes to standard error. */
export async function scoreColumns<Row>(
  columns: readonly { readonly name: string }[],
  { benches, seed, processes }: ScoreOptions,
): Promise<{ name: string; rows: Row[] }[]> {
  const parts = columns.flatMap(({ name }) =>
    Array.from(
      { length: Math.ceil(benches / benchesInPart) },
      (_, k): Part => ({
        column: name,
        seed,
        from: k * benchesInPart,
        to: Math.min(benches, (k + 1) * benchesInPart),
      }),
    ),
  );
  const results = new Array<Row[]>(parts.length);
  let next = 0;
  let done = 0;
  const runWorker = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const worker = fork(process.argv[1]!, ['--worker'], { stdio: 'inherit' });
      let current = -1;
      const sendNext = (): void => {
        if (next >= parts.length) {
          worker.disconnect();
          return;
        }
        current = next++;
        worker.send(parts[current]!);
      };
      worker.on('message', (rows) => {
        results[current] = rows as Row[];
        process.stderr.write(`\r${++done} of ${parts.length} parts done `);
        sendNext();
      });
      worker.on('error', reject);
      worker.on('exit', (code) =>
        code === 0 ? resolve() : reject(new Error(`a process of the score failed with exit code ${code}`)),
      );
      sendNext();
    });
  await Promise.all(Array.from({ length: Math.min(processes, parts.length) }, runWorker));
  process.stderr.write('\n');
  return columns.map(({ name }) => ({
    name,
    rows: results.filter((_, k) => parts[k]!.column === name).flat(),
  }));
}
