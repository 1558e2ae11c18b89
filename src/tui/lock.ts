/** The lock beside a record: it says which bench screen has it open. */
import { hostname } from 'node:os';
import { FileRefused } from '../disk/read-regular-file.ts';
import { codeOf } from './disk-fault.ts';
import { type Files, readBytes, writeSynced } from './files.ts';

export class RecordLock {
  readonly #files: Files;
  readonly path: string;
  #mine: string | null = null;

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
      started: startedAt(process.pid, this.#files),
    });
    for (let attempt = 0; attempt < 2; attempt += 1) {
      try {
        writeSynced(this.#files, this.path, 'wx', mine);
        this.#mine = mine;
        return null;
      } catch (error) {
        if (codeOf(error) !== 'EEXIST') return null;
      }
      const holder = holderOf(this.#text(), this.#files);
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

/** The holder of a lock in words; null when the program that wrote it no longer runs. */
function holderOf(text: string, files: Files): string | null {
  try {
    const { pid, host, started } = JSON.parse(text) as { pid: number; host: string; started: string | null };
    if (host !== hostname()) return `a bench screen on ${host}`;
    process.kill(pid, 0);
    return isSameProcess(startedAt(pid, files), started) && pid !== process.pid
      ? `another bench screen (process ${pid})`
      : null;
  } catch (error) {
    return codeOf(error) === 'EPERM' ? 'a bench screen of another user' : null;
  }
}

/** Where the system does not say when a process began, its number has to do. */
function isSameProcess(now: string | null, then: string | null): boolean {
  return now === then && (now !== null || process.platform !== 'linux');
}

/** When a process began, as the system counts it; tells a running program from a later one with its number. */
function startedAt(pid: number, files: Files): string | null {
  try {
    const afterName = files.readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1)!;
    const [state, ...rest] = afterName.split(' ');
    // A process that was killed may linger until its parent takes note; it writes no more.
    return state === 'Z' || state === 'X' ? null : (rest[18] ?? null);
  } catch {
    return null;
  }
}
