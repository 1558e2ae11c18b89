/**
 * npm run score:startup
 *
 * Start-up times of the built program as multiples of an empty Node process, median of ten, taken in turn.
 * The first frame of the bench screen needs a real terminal: `script` (util-linux) gives one.
 */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { textTable } from '../../src/present/text-table.ts';
import { median } from './statistics.ts';

const program = resolve('dist/whichgas.js');
const example = resolve('data/examples/harbour-lane-bench-2.json');
const repeats = 10;
const patienceMs = 20_000;

function runPlain(args: readonly string[]): number {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  const milliseconds = performance.now() - start;
  if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}: ${stderr}`);
  return milliseconds;
}

/** Milliseconds until a terminal of 140 by 40 shows the marker, null if it never does; it is closed then. */
function untilShown(command: string, marker: RegExp): Promise<number | null> {
  const folder = mkdtempSync(join(tmpdir(), 'whichgas-startup-'));
  const environment: NodeJS.ProcessEnv = { ...process.env, TERM: 'xterm-256color' };
  delete environment.CI;
  return new Promise((done, failed) => {
    const start = performance.now();
    const terminal = spawn('script', ['-qec', `stty rows 40 cols 140; exec ${command}`, '/dev/null'], {
      cwd: folder,
      env: environment,
    });
    let shown = '';
    const giveUp = setTimeout(() => terminal.kill('SIGKILL'), patienceMs);
    let milliseconds: number | null = null;
    terminal.stdout.on('data', (chunk: Buffer) => {
      shown += chunk.toString();
      if (milliseconds !== null || !marker.test(shown)) return;
      milliseconds = performance.now() - start;
      terminal.kill('SIGTERM');
    });
    terminal.on('error', failed);
    terminal.on('close', () => {
      clearTimeout(giveUp);
      rmSync(folder, { recursive: true, force: true });
      done(milliseconds);
    });
  });
}

interface Measured {
  readonly name: string;
  readonly limit: number | null;
  readonly run: () => number | Promise<number | null>;
}

const plain: readonly Measured[] = [
  { name: 'node -e 0', limit: null, run: () => runPlain(['-e', '0']) },
  { name: 'whichgas --version', limit: 1.8, run: () => runPlain([program, '--version']) },
  { name: 'whichgas identify, one record', limit: 4, run: () => runPlain([program, 'identify', example]) },
];

const quoted = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`;

const inTerminal: readonly Measured[] = [
  {
    name: 'an empty frame in a terminal',
    limit: null,
    run: () => untilShown(`${quoted(process.execPath)} -e 'console.log("ready")'`, /ready/),
  },
  {
    name: 'first frame of the bench screen',
    limit: 3.5,
    run: () => untilShown(`${quoted(process.execPath)} ${quoted(program)} bench.json`, /[─│┌╭]/),
  },
];

const hasTerminal = spawnSync('script', ['--version']).status === 0;
if (!hasTerminal) process.stderr.write('script (util-linux) is missing: the bench screen is not measured.\n');
const measured = hasTerminal ? [...plain, ...inTerminal] : plain;

const times = new Map(measured.map(({ name }) => [name, [] as number[]]));
const failed = new Set<string>();
for (let round = 0; round < repeats; round++) {
  for (const { name, run } of measured.filter((entry) => !failed.has(entry.name))) {
    const milliseconds = await run();
    if (milliseconds === null) failed.add(name);
    else times.get(name)!.push(milliseconds);
  }
}

const base = median(times.get('node -e 0')!);
const rows = measured.map(({ name, limit }) => {
  if (failed.has(name)) return [name, `never shown within ${patienceMs / 1000} s`];
  const own = times.get(name)!;
  const ratio = median(own) / base;
  const spread = `${Math.min(...own).toFixed(0)}-${Math.max(...own).toFixed(0)}`;
  return [name, median(own).toFixed(0), spread, `${ratio.toFixed(2)}x`, limit === null ? '' : `<= ${limit}x`];
});
const titles = ['what', `median of ${repeats}, ms`, 'range', 'against node -e 0', 'target'];
process.stdout.write(
  `${textTable(
    titles.map((title) => ({ title })),
    rows,
  )}\n`,
);
