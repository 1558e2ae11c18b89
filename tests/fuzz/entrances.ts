/** Texts of every kind at every place where the program takes one: an answer or a sentence, never a fault. */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { parseSmallAngle } from '../../src/angle/least-count.ts';
import { parseAngle } from '../../src/angle/parse-angle.ts';
import { readingValue } from '../../src/cli/reading-argument.ts';
import { stationFields } from '../../src/cli/station-table.ts';
import { findLamp, findTube } from '../../src/lines/names.ts';
import { searchLines } from '../../src/lines/search.ts';
import { readRecord } from '../../src/record/read-record.ts';
import type { Budget } from './budget.ts';
import { holes, hostileText, stackTrace } from './hostile-text.ts';
import { endsWell, insideFolder } from './in-process.ts';
import { oversized, oversizedTables } from './oversized-files.ts';
import { angleText, commandLine, csvText, examples, graftedRecord, mutatedRecord } from './random-text.ts';

/** A sentence for a person. */
function expectSentence(message: string): void {
  expect(message).toMatch(/\S/);
  expect(message.length).toBeLessThan(1000);
  expect(message).not.toMatch(stackTrace);
  expect(message).not.toMatch(/\bundefined\b|\[object /);
}

function checkRecordText(text: string): void {
  const read = readRecord(text);
  if (read.ok) return;
  expect(read.problems.length).toBeGreaterThan(0);
  for (const { message } of read.problems) expectSentence(message);
}

export function describeEntrances({ inputs }: Budget): void {
  describe('texts', { timeout: 3_600_000 }, () => {
    test('of angles, readings, names and queries', () => {
      fc.assert(
        fc.property(angleText, (text) => {
          const angle = parseAngle(text);
          if (angle.ok) expect(Number.isFinite(angle.degrees)).toBe(true);
          else expectSentence(angle.problem);
          const small = parseSmallAngle(text);
          if (small.ok) expect(Number.isFinite(small.arcmin)).toBe(true);
          else expectSentence(small.problem);
          for (const method of ['central', 'both-sides', 'scale'] as const) readingValue(text, method);
          findTube(text);
          findLamp(text);
          searchLines(text);
        }),
        { numRuns: inputs },
      );
    });

    test('of records: any JSON, sound ones spoilt, sound ones with a graft', () => {
      for (const text of [fc.json(), mutatedRecord, graftedRecord, hostileText])
        fc.assert(fc.property(text, checkRecordText), { numRuns: inputs });
    });
  });

  describe('the commands', { timeout: 3_600_000 }, () => {
    test.each(Object.keys(oversized))('given %s', async (name) => {
      await insideFolder({ [name]: oversized[name]! }, async () => {
        for (const words of [
          ['identify', name],
          ['verify', name, '--expect', 'neon'],
          ['report', name, '--out', 'r.html'],
        ])
          await endsWell(words);
      });
    });

    test.each(Object.keys(oversizedTables))('given %s', async (name) => {
      await insideFolder({ [name]: oversizedTables[name]!, 'a.json': examples[0]! }, async () => {
        await endsWell(['import', name, '--least-count', "1'", '--out', 'out.json']);
        await endsWell(['verify', 'a.json', '--key', name]);
        await endsWell([
          'station',
          name,
          '--lamp',
          'Hg',
          '--least-count',
          "1'",
          '--out',
          'lab',
          '--sheet',
          's.html',
        ]);
      });
    });

    test('given spreadsheets of every kind', async () => {
      await insideFolder({}, async () => {
        for (const text of fc.sample(csvText, inputs / 2)) {
          writeFileSync('readings.csv', text);
          for (const method of ['central', 'both-sides', 'scale']) {
            const leastCount = method === 'scale' ? '0.1' : "1'";
            const ended = await endsWell([
              'import',
              'readings.csv',
              '--method',
              method,
              '--least-count',
              leastCount,
            ]);
            if (ended.code === 0) expect(readRecord(ended.out).ok).toBe(true);
          }
        }
      });
    });

    test('given tables of stations of every kind', async () => {
      await insideFolder({}, async () => {
        const cell = fc.oneof(
          hostileText,
          fc.constantFrom('', '1', 'Hg', 'neon', "1'", '60', 'F2', 'NaN', '9e999', '2'),
        );
        const columns = fc.shuffledSubarray(Object.values(stationFields).map(({ column }) => column));
        const tables = fc.tuple(
          columns,
          fc.array(fc.array(cell, { minLength: 15, maxLength: 15 }), { maxLength: 3 }),
        );
        for (const [names, rows] of fc.sample(tables, inputs / 5)) {
          const titles = ['station', ...names.filter((name) => name !== 'station')];
          const csv = Papa.unparse({
            fields: titles,
            data: rows.map((row, at) => [String(at), ...row].slice(0, titles.length)),
          });
          writeFileSync('stations.csv', csv);
          const flags = [
            '--lamp',
            'Hg',
            '--least-count',
            "1'",
            '--expect',
            'neon',
            '--sheet',
            's.html',
            '--answers',
            'a.html',
          ];
          const ended = await endsWell(['station', 'stations.csv', ...flags, '--out', 'lab', '--force']);
          if (ended.code !== 0) continue;
          for (const name of readdirSync('lab'))
            expect(readRecord(readFileSync(join('lab', name), 'utf8')).ok).toBe(true);
          rmSync('lab', { recursive: true });
        }
      });
    });

    test('given words of every kind', async () => {
      const files = {
        'a.json': examples[0]!,
        'b.json': `\ufeff${examples[1]!.replaceAll('\n', '\r\n')}`,
        'broken.json': examples[0]!.slice(0, 300),
        'readings.csv': `tube,reading\nC,229°39'\n`,
        'stations.csv': `station,lamp,least count,expected\n1,Hg,1',neon\n`,
      };
      await insideFolder(files, async () => {
        for (const words of fc.sample(commandLine, inputs / 2)) {
          const ended = await endsWell(words);
          expect(ended.out).not.toMatch(holes);
        }
      });
    });
  });
}
