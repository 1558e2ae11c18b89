/** The lock beside a record: it says which bench screen has it open. */
import { hostname } from 'node:os';
import { FileRefused } from '../disk/read-regular-file.ts';
import { writeSynced } from '../disk/write-whole.ts';
import { codeOf } from './disk-fault.ts';
import { type Files, readBytes } from './files.ts';
import { isSameStart, type ProcessStart, startOf } from './process-start.ts';

export class RecordLock {
  readonly #files: Files;
  readonly path: string;
  #mine: string | null = null;
  /** The lock whose holder was seen to be its writer: to ask once more at every edit would take too long on Windows. */
  #confirmed: string | null = null;

  constructor(files: Files, path: string) {
    this.#files = files;
    this.path = path;
  }

  /**
   * @returns who holds the lock; null when it is ours now, or the folder takes no lock at all
   * @throws FileRefused where something else than a file has the lock's name
   */
  take(): string | null {
    const mine = JSON.stringify({
      pid: process.pid,
      host: hostname(),
      started: startOf(process.pid, this.#files),
    });
    for (let attempt = 0; attempt < 2; attempt += 1) {
      try {
        writeSynced(this.#files, this.path, 'wx', mine);
        this.#mine = mine;
        return null;
      } catch (error) {
        if (codeOf(error) !== 'EEXIST') return null;
      }
      const holder = this.#holderOf(this.#text());
      if (holder !== null) return holder;
      this.#remove();
    }
    return null;
  }

  /** Takes the lock from whoever holds it. */
  takeOver(): void {
    this.#remove();
    this.take();
  }

  release(): void {
    if (this.#mine !== null && this.#text() === this.#mine) this.#remove();
    this.#mine = null;
  }

  /** The holder of a lock in words; null when the program that wrote it no longer runs. */
  #holderOf(text: string): string | null {
    const holder = parsed(text);
    if (holder === null) return null;
    const { pid, host, started } = holder;
    if (host !== hostname()) return `a bench screen on ${host}`;
    const owner = ownerOf(pid);
    if (owner === null || pid === process.pid) return null;
    const isConfirmed = text === this.#confirmed && typeof started === 'number';
    if (!isConfirmed && !isSameStart(startOf(pid, this.#files), started)) return null;
    this.#confirmed = text;
    return owner === 'us' ? `another bench screen (process ${pid})` : 'a bench screen of another user';
  }

  #text(): string {
    try {
      return readBytes(this.#files, this.path)?.toString() ?? '';
    } catch (error) {
      if (error instanceof FileRefused) throw error;
      return '';
    }
  }

  #remove(): void {
    try {
      this.#files.unlinkSync(this.path);
    } catch {
      // Gone already, or not ours to remove: a lock left behind is recognised as stale by the next start.
    }
  }
}

interface Holder {
  readonly pid: number;
  readonly host: string;
  readonly started: ProcessStart;
}

/** Null where the lock names nobody, as one that was written by half. */
function parsed(text: string): Holder | null {
  try {
    const { pid, host, started } = JSON.parse(text) as Holder;
    return typeof pid === 'number' && typeof host === 'string' ? { pid, host, started } : null;
  } catch {
    return null;
  }
}

/** Whose process has this number; null: there is none. */
function ownerOf(pid: number): 'us' | 'others' | null {
  try {
    process.kill(pid, 0);
    return 'us';
  } catch (error) {
    return codeOf(error) === 'EPERM' ? 'others' : null;
  }
}
