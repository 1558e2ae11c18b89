/** Writes data/examples/ anew: `npx tsx tests/examples/write-examples.ts`. */
import { writeFileSync } from 'node:fs';
import { readRecord } from '../../src/record/read-record.ts';
import { readableText } from '../../src/record/readable-text.ts';
import { examples } from './examples.ts';

for (const [name, example] of Object.entries(examples)) {
  const read = readRecord(JSON.stringify(example));
  if (!read.ok) throw new Error(`${name}: ${JSON.stringify(read.problems)}`);
  const written = readableText(read.record);
  if (!written.ok) throw new Error(`${name}: ${JSON.stringify(written.problems)}`);
  writeFileSync(new URL(`../../data/examples/${name}`, import.meta.url), written.text);
}
