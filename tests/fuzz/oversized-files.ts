/** Files that are too much for any bench, or no text at all. */

const lines = (count: number): string => Array(count).fill(`{"readings":["229°39'"]}`).join(',');
const record = (rest: string): string =>
  `{"whichgas":1,"instrument":{"method":"central","leastCount":"1'"}${rest}}`;

/** Named as records. */
export const oversized: Readonly<Record<string, string | Uint8Array>> = {
  'empty.json': '',
  'blank.json': ' \r\n\t\n',
  'bom.json': '\ufeff',
  'nul.json': new Uint8Array(1000),
  'binary.json': Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919) % 256),
  'latin1.json': Buffer.from(record(`,"title":"R\xf6hre"`), 'latin1'),
  'utf16.json': Buffer.from(record(''), 'utf16le'),
  'lines.json': record(`,"unknown":{"lines":[${lines(200_000)}]}`),
  'lines-500.json': record(`,"central":["181°04'"],"unknown":{"lines":[${lines(501)}]}`),
  'deep-lists.json': '['.repeat(200_000),
  'deep-objects.json': '{"a":'.repeat(200_000),
  'deep-closed.json': `${'['.repeat(200_000)}${']'.repeat(200_000)}`,
  'deep-in-place.json': record(`,"central":${'['.repeat(31)}"1°"${']'.repeat(31)}`),
  'text.json': record(`,"title":"${'x'.repeat(5_000_000)}"`),
  'key.json': record(`,"${'k'.repeat(1_000_000)}":1`),
  'keys.json': record(Array.from({ length: 100_000 }, (_, i) => `,"k${i}":1`).join('')),
  'same-keys.json': record(',"title":"a"'.repeat(50_000)),
  'quotes.json': '"'.repeat(1_000_000),
  'backslashes.json': `"${'\\'.repeat(1_000_001)}`,
  'digits.json': record(`,"central":[${'9'.repeat(1_000_000)}]`),
  'angle.json': record(`,"central":["${'9'.repeat(500_000)}°"]`),
  'marks.json': record(`,"central":["${`1°2'`.repeat(200_000)}"]`),
  'spaces.json': record(`,"central":["1${' '.repeat(500_000)}°"]`),
  'blanks.json': `${record('')}${' '.repeat(15_000_000)}`,
  'line-ends.json': `${'\n'.repeat(15_000_000)}${record('')}`,
  'escapes.json': record(`,"title":"${'\\u0041'.repeat(2_500_000)}"`),
  'wrong-lines.json': record(`,"unknown":{"lines":[${Array(190_000).fill('{"readings":5}').join(',')}]}`),
  'proto.json': record(',"__proto__":{"title":"x"}'),
  'proto-tube.json': record(',"unknown":{"__proto__":{"label":"x"},"lines":[]}'),
  'name.json': record(`,"shelf":["${'neon'.repeat(100_000)}"]`),
  'lamp.json': record(`,"known":{"lamp":"${'mercury-'.repeat(50_000)}","lines":[]}`),
};

/** Named as spreadsheets. */
export const oversizedTables: Readonly<Record<string, string | Uint8Array>> = {
  'empty.csv': '',
  'binary.csv': oversized['binary.json']!,
  'rows.csv': `tube,reading\n${`C,229°39'\n`.repeat(200_000)}`,
  'columns.csv': `${'reading,'.repeat(50_000)}\n`,
  'columns-named.csv': `${Array.from({ length: 200_000 }, (_, i) => `reading ${i}`).join(',')}\n`,
  'columns-quoted.csv': `"tube\n",${Array.from({ length: 200_000 }, (_, i) => `reading ${i}`).join(',')}\n`,
  'cells.csv': `tube,reading\nC,229°39'${','.repeat(2_000_000)}x\n`,
  'numbered.csv': `tube,${Array.from({ length: 3000 }, (_, i) => `reading ${i}`).join(',')}\nC${`,229°39'`.repeat(3000)}\n`,
  'open-quote.csv': `tube,reading\n"${'x'.repeat(1_000_000)}`,
  'quotes.csv': `tube,reading\nC,${'"'.repeat(300_001)}\n`,
  'tubes.csv': `tube,reading\n${Array.from({ length: 20_000 }, (_, i) => `t${i},229°39'`).join('\n')}\n`,
};
