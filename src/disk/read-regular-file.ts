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
 * Bytes as text: UTF-8 with its byte order mark if it has one, or UTF-16 where such a mark says so, as older shells of
 * Windows write with `>`.
 * @throws FileRefused where they are neither: what is not understood whole is not taken, and never written back
 */
export function textOf(bytes: Buffer): string {
  const mark = bytes.subarray(0, 2).toString('hex');
  if (mark === 'fffe' || mark === 'feff') return utf16Text(bytes, mark === 'fffe' ? 'utf-16le' : 'utf-16be');
  if (!isUtf8(bytes)) throw new FileRefused('not UTF-8 text; save it as UTF-8 in the program that wrote it');
  return bytes.toString('utf8');
}

function utf16Text(bytes: Buffer, encoding: string): string {
  const text = new TextDecoder(encoding).decode(bytes);
  if (text.includes('\ufffd')) throw new FileRefused('damaged UTF-16 text; save it as UTF-8');
  // Such a shell takes the UTF-8 of a program for the letters of its console (code pages 437, 850, 866; 1252).
  const spoilt = /┬░|Â°/.exec(text)?.[0];
  if (spoilt !== undefined)
    throw new FileRefused(
      `the shell that wrote it has made "${spoilt}" of every °; write it with --out, or with > in another shell`,
    );
  return text;
}

/** The refusal of a file above so many bytes. */
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
