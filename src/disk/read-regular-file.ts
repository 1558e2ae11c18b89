/** The one way in which the program reads files: regular ones only, whole, and no more of them than it can use. */
import { isUtf8 } from 'node:buffer';
import * as nodeFiles from 'node:fs';
import { most } from '../record/limits.ts';

export type FilesToRead = Pick<typeof nodeFiles, 'statSync' | 'openSync' | 'readSync' | 'closeSync'>;

/** A file that is there and is not taken. `message` follows its name: `larger than 16 MiB, which no bench record is`. */
export class FileRefused extends Error {}

/**
 * The bytes of a file. A pipe would keep the program waiting for ever and a device would fill the memory, so neither
 * is opened.
 * @throws FileRefused for what is no regular file or too large; the system's own error for what cannot be read
 */
export function readRegularFile(
  path: string,
  files: FilesToRead = nodeFiles,
  mostBytes: number = most.bytes,
): Buffer {
  const found = files.statSync(path);
  if (!found.isFile()) throw new FileRefused(`${kindOf(found)}, where a file is needed`);
  if (found.size > mostBytes) throw tooLarge(mostBytes);
  const { O_RDONLY, O_NONBLOCK = 0 } = nodeFiles.constants;
  // Should something else have taken the name since, it does not keep the program waiting either.
  const file = files.openSync(path, O_RDONLY | O_NONBLOCK);
  try {
    const chunks: Buffer[] = [];
    let size = 0;
    for (;;) {
      const chunk = Buffer.allocUnsafe(Math.max(found.size - size + 1, 4096));
      const count = files.readSync(file, chunk, 0, chunk.length, null);
      if (count === 0) return Buffer.concat(chunks);
      size += count;
      if (size > mostBytes) throw tooLarge(mostBytes);
      chunks.push(chunk.subarray(0, count));
    }
  } finally {
    files.closeSync(file);
  }
}

/**
 * Bytes as text, with its byte order mark if it has one.
 * @throws FileRefused where they are not UTF-8: what is not understood whole is not taken, and never written back
 */
export function utf8Text(bytes: Buffer): string {
  if (!isUtf8(bytes)) throw new FileRefused('not UTF-8 text; save it as UTF-8 in the program that wrote it');
  return bytes.toString('utf8');
}

export function tooLarge(mostBytes: number = most.bytes): FileRefused {
  return new FileRefused(`larger than ${mostBytes / 1024 / 1024} MiB, which no bench record is`);
}

/** What a name stands for, where it is no regular file. */
export function kindOf(found: nodeFiles.Stats): string {
  if (found.isDirectory()) return 'a folder';
  if (found.isFIFO()) return 'a pipe';
  if (found.isSocket()) return 'a socket';
  return 'a device';
}
