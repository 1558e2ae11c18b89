/** The program run inside the test: thousands of command lines in the time of a few started programs. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, vi } from 'vitest';
import { run } from '../../src/cli/run.ts';
import { inTime } from './budget.ts';
import { obeyedByTerminals, stackTrace } from './hostile-text.ts';

export interface Ended {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** What the words print and end with. Standard input is not at hand here, so none of them may be "-". */
export async function runInProcess(words: readonly string[]): Promise<Ended> {
  const printed = { out: '', err: '' };
  const caught = (stream: 'out' | 'err') => (chunk: string | Uint8Array) => {
    printed[stream] += String(chunk);
    return true;
  };
  const spies = [
    vi.spyOn(process.stdout, 'write').mockImplementation(caught('out')),
    vi.spyOn(process.stderr, 'write').mockImplementation(caught('err')),
  ];
  try {
    const code = await run(words);
    return { code, ...printed };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}

/** Ends as a program should, whatever it was given: in time, with an exit code of its own, with sentences. */
export async function endsWell(words: readonly string[]): Promise<Ended> {
  const ended = await inTime(() => runInProcess(words));
  expect([0, 1, 2]).toContain(ended.code);
  expect(ended.out).not.toMatch(obeyedByTerminals);
  expect(ended.err).not.toMatch(obeyedByTerminals);
  expect(ended.out + ended.err).not.toMatch(stackTrace);
  if (ended.code === 2) expect(ended.err).toMatch(/^whichgas: ./);
  return ended;
}

/** A folder of its own that is also where the program runs, so that nothing it writes lands elsewhere. */
export async function insideFolder<Result>(
  files: Readonly<Record<string, string | Uint8Array>>,
  use: () => Promise<Result>,
): Promise<Result> {
  const folder = mkdtempSync(join(tmpdir(), 'whichgas-fuzz-'));
  const before = process.cwd();
  try {
    for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
    process.chdir(folder);
    return await use();
  } finally {
    process.chdir(before);
    rmSync(folder, { recursive: true, force: true });
  }
}
