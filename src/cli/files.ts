/** The commands' only way to the text of a file. Every failure is a sentence that names the file. */
import type { Readable } from 'node:stream';
import { readRegularFile, tooLarge, utf8Text } from '../disk/read-regular-file.ts';
import { most } from '../record/limits.ts';
import { asUserError, shownName } from './file-failure.ts';
import { UserError } from './user-error.ts';

/** The text of a file, or of standard input for `-`: UTF-8 with or without a byte order mark. */
export async function readTextFile(path: string): Promise<string> {
  if (path === '')
    throw new UserError('an empty file name was given; name a file, or "-" for standard input');
  const name = shownName(path);
  try {
    const bytes = path === '-' ? await readBounded(process.stdin) : readRegularFile(path);
    return utf8Text(bytes).replace(/^\ufeff/, '');
  } catch (error) {
    throw asUserError(error, name, 'read');
  }
}

async function readBounded(stream: Readable): Promise<Buffer> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of stream) {
    const bytes: Buffer = typeof chunk === 'string' ? Buffer.from(chunk) : chunk;
    size += bytes.length;
    if (size > most.bytes) throw tooLarge();
    chunks.push(bytes);
  }
  return Buffer.concat(chunks);
}
