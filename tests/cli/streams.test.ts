import { spawn, spawnSync } from 'node:child_process';
import { closeSync, existsSync, openSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exampleFile, examplesFolder, programFile, whichgas, withFiles } from './run-program.ts';

const clear = exampleFile('harbour-lane-bench-2.json');
const escapeCharacter = '\x1b';

describe('standard input', () => {
  it.each(['identify', 'calibrate', 'convert', 'predict', 'verify'])('is read for "-" by %s', (command) => {
    const extra = { convert: ["229°17'"], predict: ['helium'], verify: ['--expect', 'neon'] }[command] ?? [];
    const stdin = readFileSync(clear);
    const { code, out, err } = whichgas([command, '-', ...extra], { stdin });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out.length).toBeGreaterThan(100);
  });

  it('may have CRLF and a byte order mark', () => {
    const stdin = `\ufeff${readFileSync(clear, 'utf8').replaceAll('\n', '\r\n')}`;
    expect(whichgas(['identify', '-'], { stdin }).out).toBe(
      whichgas(['identify', '-'], { stdin: readFileSync(clear) }).out,
    );
  });
});

describe('colour', () => {
  it('is absent in a pipe', () => {
    expect(whichgas(['identify', examplesFolder]).out).not.toContain(escapeCharacter);
  });

  it('tints the colours of predict where the terminal has colours enough, and the text is the same', () => {
    const words = ['predict', clear, 'helium', '--bright'];
    const plain = whichgas(words).out;
    const tinted = whichgas(words, { env: { FORCE_COLOR: '1', COLORTERM: 'truecolor' } }).out;
    expect(tinted).toContain('\x1b[38;2;');
    expect(tinted.replaceAll(/\x1b\[[\d;]+m/g, '')).toBe(plain);
    for (const env of [
      { NO_COLOR: '1', FORCE_COLOR: '1', COLORTERM: 'truecolor' },
      { FORCE_COLOR: '1', COLORTERM: '' },
    ])
      expect(whichgas(words, { env }).out).toBe(plain);
  });

  it('is absent under NO_COLOR, present under FORCE_COLOR, and the text is the same', () => {
    const plain = whichgas(['identify', clear], { env: { NO_COLOR: '1' } });
    const coloured = whichgas(['identify', clear], { env: { FORCE_COLOR: '1' } });
    const both = whichgas(['identify', clear], { env: { NO_COLOR: '1', FORCE_COLOR: '1' } });
    expect(plain.out).not.toContain(escapeCharacter);
    expect(both.out).toBe(plain.out);
    expect(coloured.out).toContain(escapeCharacter);
    expect(coloured.out.replaceAll(/\x1b\[\d+m/g, '')).toBe(plain.out);
  });
});

describe('width', () => {
  it.each([
    ['identify', [examplesFolder]],
    ['calibrate', [clear]],
    ['convert', [clear, "229°17'", "231°26'"]],
    ['verify', [examplesFolder, '--expect', 'neon']],
    ['predict', [clear, 'helium', 'nitrogen']],
    ['lines', []],
  ])('%s fits 80 columns', (command, args) => {
    const { out } = whichgas([command, ...args]);
    const wide = out.split('\n').filter((line) => !line.startsWith('/') && [...line].length > 80);
    expect(wide).toEqual([]);
  });
});

describe('a reader that has seen enough', () => {
  it('is no fault', async () => {
    const child = spawn(process.execPath, [programFile, 'lines', '--json'], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let err = '';
    child.stderr.on('data', (chunk) => {
      err += String(chunk);
    });
    child.stdout.once('data', () => child.stdout.destroy());
    const code = await new Promise((resolve) => child.on('close', resolve));
    expect({ code, err }).toEqual({ code: 0, err: '' });
  });
});

describe.skipIf(!existsSync('/dev/full'))('a disk that is full', () => {
  it('is one sentence and exit code 2', () => {
    const full = openSync('/dev/full', 'w');
    const { status, stderr } = spawnSync(process.execPath, [programFile, 'lines'], {
      stdio: ['ignore', full, 'pipe'],
      encoding: 'utf8',
    });
    closeSync(full);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^whichgas: the output cannot be written: .+\n$/);
  });
});

describe('hostile text in a record', () => {
  const hostile = '\x1b]0;owned\x07\x1b[2J\x9b31m\u202e=cmd|x!A1<script>';
  const record = JSON.parse(readFileSync(clear, 'utf8'));
  record.title = hostile;
  record.known.lamp = `mercury`;
  record.unknown.label = hostile;
  record.unknown.answer = hostile;
  record.unknown.lines[0].note = hostile;
  record.about.remarks = hostile;
  const stdin = JSON.stringify(record);

  it.each([
    ['identify', ['identify', '-']],
    ['identify --json', ['identify', '--json', '-']],
    ['calibrate', ['calibrate', '-']],
    ['calibrate --json', ['calibrate', '--json', '-']],
    ['verify', ['verify', '-', '--expect', 'neon']],
    ['verify --csv', ['verify', '-', '--expect', 'neon', '--csv']],
    ['verify --json', ['verify', '-', '--expect', 'neon', '--json']],
  ])('never reaches the terminal through %s', (_what, args) => {
    const { out, err } = whichgas(args, { stdin });
    expect(out).not.toBe('');
    expect(out + err).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]/);
  });

  it('never becomes a formula in the gradebook', () => {
    const [, row = ''] = whichgas(['verify', '-', '--expect', 'neon', '--csv'], { stdin }).out.split('\n');
    for (const cell of row.split(',')) expect(cell.replace(/^"/, '')).not.toMatch(/^[=+@-]/);
  });

  it('in the name of a file or a key is cleaned too', () =>
    withFiles({ '\x1b[31m.json': '{"\x1b[2J\u202e":1}' }, (cwd) => {
      const { err } = whichgas(['identify', `\x1b[31m.json`], { cwd });
      expect(err).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]/);
    }));

  it('in an argument is cleaned too', () => {
    const { err } = whichgas(['lines', hostile]);
    expect(err).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]/);
  });
});
