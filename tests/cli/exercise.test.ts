/** An exercise keeps its ranking back until an answer is written, on every way out but the instructor's. */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { tubes } from '../../src/lines/table.ts';
import { GlassReader, neonNm, recordOf, unknownTube } from '../calibrate/glass-bench.ts';
import { whichgas } from './run-program.ts';

const reader = new GlassReader();
const exercise = (tube: object, record: object = {}): string =>
  JSON.stringify({
    whichgas: 1,
    ...recordOf(reader, { unknown: { ...unknownTube(reader, neonNm), label: 'tube C', ...tube } }),
    ...record,
  });
/** Every gas but the known lamp's, which the record names itself. */
const gases = new RegExp(
  `\\b(?:${tubes
    .map(({ substance }) => substance)
    .filter((name) => name !== 'helium')
    .join('|')})\\b`,
  'i',
);

let folder = '';
const file = (name: string): string => join(folder, name);
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'exercise-'));
  await writeFile(file('tube.json'), exercise({ ranking: 'after-answer' }));
  await writeFile(file('record.json'), exercise({}, { ranking: 'after-answer' }));
  const { known } = recordOf(reader) as { known: object };
  await writeFile(file('lamp.json'), exercise({}, { known: { ...known, ranking: 'after-answer' } }));
  await writeFile(file('blank.json'), exercise({ ranking: 'after-answer', answer: ' ' }));
  await writeFile(file('answered.json'), exercise({ ranking: 'after-answer', answer: 'neon' }));
  await writeFile(file('open.json'), exercise({ ranking: 'always' }, { ranking: 'after-answer' }));
});
afterAll(() => rm(folder, { recursive: true }));

describe.each(['tube.json', 'record.json', 'lamp.json', 'blank.json'])('%s', (name) => {
  test('identify prints wavelengths, and no gas', () => {
    const { out: stdout, code: exitCode } = whichgas(['identify', file(name)]);
    expect(exitCode).toBe(0);
    expect(stdout).not.toMatch(gases);
    expect(stdout).toMatch(/641\.\d/);
    expect(stdout).toMatch(/kept back until an answer is written/);
  });

  test('identify --json says held-back, and has no candidates', async () => {
    const { out: stdout } = whichgas(['identify', '--json', file(name)]);
    const found = JSON.parse(stdout);
    expect(found.verdict).toMatchObject({ kind: 'held-back', substance: null, nextLook: null });
    expect(found.candidates).toEqual([]);
    expect(found.lines).toHaveLength(neonNm.length);
    expect(found.lines[3].wavelengthNm).toBeGreaterThan(600);
    expect(stdout).not.toMatch(gases);
  });

  test('convert names no line of any tube', async () => {
    const { out: stdout } = whichgas(['convert', file(name), reader.line(640.22)]);
    expect(stdout).toMatch(/64\d.*nm/);
    expect(stdout).not.toMatch(gases);
    const json = whichgas(['convert', '--json', file(name), reader.line(640.22)]);
    expect(JSON.parse(json.out).near).toEqual([]);
  });

  test.each(name === 'tube.json' ? ['md', 'csv', 'html'] : ['md'])(
    'the report as %s names no gas',
    async (format) => {
      const out = file(`${name}.${format}`);
      whichgas(['report', file(name), '--out', out]);
      // Cautions speak of mercury, and wavelengths are those in air.
      expect(await readFile(out, 'utf8')).not.toMatch(/\b(?:neon|argon|krypton|xenon|nitrogen|oxygen)\b/i);
    },
  );

  test('--reveal is the instructor’s word, and verify shows all', async () => {
    expect(whichgas(['identify', '--reveal', file(name)]).out).toMatch(/neon/);
    expect(whichgas(['convert', '--reveal', file(name), reader.line(640.22)]).out).toMatch(/neon/);
    expect(whichgas(['verify', file(name), '--expect', 'neon']).out).toMatch(/supported/);
  });
});

test.each(['answered.json', 'open.json'])('%s shows its ranking', async (name) => {
  const { out: stdout } = whichgas(['identify', '--json', file(name)]);
  expect(JSON.parse(stdout).verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
});
