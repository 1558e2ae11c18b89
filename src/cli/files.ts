/** The commands' only way to the text of a file. Every failure is a sentence that names the file. */
import type { Readable } from 'node:stream';
import { FileRefused, readRegularFile, textOf, tooLarge } from '../disk/read-regular-file.ts';
import { most } from '../record/limits.ts';
import { asUserError, shownName, UserError } from './user-error.ts';

/** The text of a file, or of standard input for `-`: UTF-8 or UTF-16, without its byte order mark. */
export async function readTextFile(path: string): Promise<string> {
  if (path === '')
    throw new UserError('an empty file name was given; name a file, or "-" for standard input');
  const name = shownName(path);
  try {
    const bytes = path === '-' ? await readBounded(process.stdin) : readRegularFile(path);
    const text = textOf(bytes).replace(/^\ufeff/, '');
    if (path === '-') checkDegreeSigns(text);
    return text;
  } catch (error) {
    throw asUserError(error, name, 'read');
  }
}

/** The pipe of an older shell of Windows writes "?" for every letter that ASCII lacks. */
function checkDegreeSigns(text: string): void {
  const spoilt = /\d{1,3}\?{1,2}\d{1,2}(?:[.,]\d+)?'/.exec(text)?.[0];
  if (spoilt === undefined) return;
  throw new FileRefused(`"${spoilt}": the shell has made "?" of ° on the way; name the file instead of "-"`);
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
