/** The commands give the same on Windows as on Linux, byte by byte, but for the slashes of paths. */
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { hasWindows, runOn, type System } from './wine.ts';

const program = resolve('dist/whichgas.js');
const record = readFileSync('data/examples/harbour-lane-bench-2.json', 'utf8');
const utf16 = (text: string): Buffer => Buffer.from(`\ufeff${text}`, 'utf16le');
const readings = [
  'lamp,tube,wavelength,colour,reading,note',
  `central,,,,"181°04'",`,
  `mercury,,546.07,green,"229°40'",`,
  'mercury,,435.83,blue,231 26,',
  `,tube C,,red,"228°53'",sharp`,
];

/** A folder with records, keys and spreadsheets as they come; also what no command can use. */
function classroom(): string {
  const folder = mkdtempSync(join(tmpdir(), 'whichgas-windows-'));
  const put = (name: string, content: string | Uint8Array) => writeFileSync(join(folder, name), content);
  put('bench.json', record);
  cpSync('data/examples', join(folder, 'class'), { recursive: true });
  mkdirSync(join(folder, 'folder.json'));
  mkdirSync(join(folder, 'empty'));
  put('Prüfstand 3 α.json', record);
  put('crlf.json', record.replaceAll('\n', '\r\n'));
  put('mark.json', `\ufeff${record}`);
  put('utf-16.json', utf16(record));
  put('latin-1.json', Buffer.from(record, 'latin1'));
  put('broken.json', record.slice(0, 400));
  put('slips.json', record.replace('"leastCount"', '"leastcount"'));
  put('readings.csv', readings.join('\n'));
  put('crlf.csv', `${readings.join('\r\n')}\r\n`);
  put('utf-16.csv', utf16(readings.join('\r\n')));
  put(
    'key.csv',
    'record,expected\nharbour-lane-bench-2.json,neon\nharbour-lane-bench-4,helium\nnobody,argon\n',
  );
  put(
    'stations.csv',
    'station;lamp;tube;shelf;expected;glass;apex\n1;mercury;C;helium, neon;neon;F2;60°\n2;Hg-Cd;tube Ü;;helium;;\n',
  );
  put('key-folders.csv', 'record,expected\nclass/harbour-lane-bench-2.json,neon\n');
  put('key-backslashes.csv', 'record,expected\nclass\\harbour-lane-bench-2.json,neon\n');
  return folder;
}

/** `/` in a word is the slash of the system where the word is typed. */
const cases: readonly (readonly string[])[] = [
  ['--version'],
  ['--help'],
  ['identify', '--help'],
  ['demo'],
  ['demo', '--json'],
  ['schema'],
  ['lines'],
  ['lines', 'helium', '--json'],
  ['calibrate', 'bench.json'],
  ['calibrate', 'bench.json', '--json'],
  ['compare', 'bench.json', 'class/harbour-lane-bench-5.json'],
  ['compare', 'bench.json', 'class/harbour-lane-bench-5.json'],
  ['identify', 'bench.json'],
  ['bench.json'],
  ['identify', 'class', '--json'],
  ['identify', 'class/', './class/harbour-lane-bench-4.json'],
  ['identify', 'class/*-1?.json'],
  ['identify', '*.json'],
  ['identify', 'bench.json', '--calibration', 'class/harbour-lane-bench-5.json'],
  ['identify', 'Prüfstand 3 α.json', '--json'],
  ['identify', 'crlf.json', 'mark.json', 'utf-16.json'],
  ['convert', 'bench.json', "228°52'", '229 17'],
  ['convert', 'bench.json', '--to', '587.56', '--to', 'helium', '--json'],
  ['predict', 'bench.json', 'helium'],
  ['predict', '--glass', 'F2', '--apex', '60', '--central', '17 10', '--least-count', "1'", 'neon'],
  ['verify', 'bench.json', '--expect', 'neon'],
  ['verify', 'class', '--key', 'key.csv'],
  ['verify', 'class', '--key', 'key.csv', '--csv'],
  ['verify', 'class/harbour-lane-bench-2.json', '--key', 'key-folders.csv', '--json'],
  ['verify', 'class/harbour-lane-bench-2.json', '--key', 'key-backslashes.csv', '--csv'],
  ['report', 'bench.json', '--out', 'report.html'],
  ['report', 'bench.json', '--out', 'class/report.md'],
  ['report', 'bench.json', '--out', 'report.csv'],
  ['report', 'bench.json', '--out', 'class/../bench.json'],
  ['report', 'bench.json', '--out', 'nowhere/report.md'],
  ['import', 'readings.csv', '--least-count', "1'"],
  ['import', 'crlf.csv', '--least-count', "1'", '--out', 'class/new.json'],
  ['import', 'utf-16.csv', '--least-count', "1'", '--json'],
  ['import', 'readings.csv', '--least-count', "1'", '--out', 'bench.json'],
  ['station', '--lamp', 'Hg', '--least-count', "1'", '--out', 'class/s.json', '--sheet', 'sheet.html'],
  ['station', 'stations.csv', '--least-count', "1'", '--out', 'lab', '--sheet', 'lab/sheets.html', '--json'],
  ['station', 'stations.csv', '--least-count', "1'", '--out', 'new/lab'],
  ['station', 'stations.csv', '--least-count', "1'", '--out', 'class', '--answers', 'class/answers.html'],
  ['station', '--lamp', 'Hg', '--least-count', "1'", '--out', 'bench.json', '--force'],
  ['import', 'readings.csv', '--station', 'bench.json'],
  ['identify', 'nothing.json'],
  ['identify', 'nowhere/nothing.json'],
  ['identify', 'nowhere/*.json'],
  ['identify', 'folder.json'],
  ['identify', 'empty'],
  ['report', 'folder.json', '--out', 'report.md'],
  ['report', 'bench.json', '--out', 'folder.json'],
  ['identify', 'broken.json'],
  ['identify', 'slips.json'],
  ['identify', 'latin-1.json'],
  ['identfy', 'bench.json'],
  ['identify'],
  [],
];

/** What came of the words: streams, exit code, and every file of the folder. */
function outcome(system: System, words: readonly string[], stdin?: string | Uint8Array) {
  const folder = classroom();
  try {
    const typed = words.map((word) => (system === 'windows' ? word.replaceAll('/', '\\') : word));
    const { code, out, err } = runOn(system, [program, ...typed], {
      cwd: folder,
      ...(stdin === undefined ? {} : { stdin }),
    });
    const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
    const files = names.filter((name) => statSync(join(folder, name)).isFile());
    return {
      code,
      out: withOneSlash(out),
      err: withOneSlash(err),
      files: files.map((name) => [name, withOneSlash(readFileSync(join(folder, name), 'latin1'))]),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Backslashes, in JSON doubled, as the slashes of Linux. */
const withOneSlash = (text: string): string => text.replace(/\\+/g, '/');

describe.skipIf(!hasWindows)('on Windows as on Linux', () => {
  test.each(cases.map((words) => [words.join(' '), words] as const))('whichgas %s', (_shown, words) => {
    expect(outcome('windows', words)).toEqual(outcome('linux', words));
  });

  test.each([
    ['a record', record],
    ['a record with a mark and CRLF', `\ufeff${record.replaceAll('\n', '\r\n')}`],
    ['a record in UTF-16', utf16(record)],
    ['nothing', ''],
    ['half a record', record.slice(0, 400)],
  ])('standard input: %s', (_what, stdin) => {
    const words = ['identify', '-', '--json'];
    expect(outcome('windows', words, stdin)).toEqual(outcome('linux', words, stdin));
  });
});
