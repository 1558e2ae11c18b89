/**
 * Keeping the record on disk: the only place of the bench screen that touches files.
 *
 * Every accepted edit is first appended to the trail (`bench.json.trail`) and synced, then the record itself is
 * replaced whole: a temporary file in the same folder, synced, renamed over the record, the folder synced. So the
 * record is a complete, readable file at every moment, for scripts and people too, and the trail holds the undo
 * history and any edit that a crash kept from the record. One of the two alone would do for safety; together they
 * give both a plain file and a history. `bench.json.lock` says that a bench screen has the record open.
 */
import { randomUUID } from 'node:crypto';
import * as nodeFiles from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { readRecord } from '../record/read-record.ts';
import { benchRecordSchema } from '../record/schema.ts';
import { type BenchForm, formOf, formText, isSameForm } from './form.ts';
import { START_PLACE } from './state.ts';
import {
  type Change,
  type History,
  historyEdited,
  readTrail,
  startHistory,
  trailLine,
  writeTrail,
} from './trail.ts';

/** The file operations used; tests put failing ones in their place. */
export type Files = Pick<
  typeof nodeFiles,
  | 'openSync'
  | 'writeSync'
  | 'fsyncSync'
  | 'closeSync'
  | 'renameSync'
  | 'readFileSync'
  | 'unlinkSync'
  | 'existsSync'
  | 'realpathSync'
  | 'statSync'
>;

export type SaveOutcome =
  | { readonly kind: 'saved'; readonly trailProblem: string | null }
  | { readonly kind: 'failed'; readonly problem: string }
  | { readonly kind: 'changed-outside'; readonly theirs: BenchForm | null };

export interface Opened {
  readonly history: History;
  /** What a person should know about how the record was opened; null when there is nothing to say. */
  readonly notice: string | null;
  /** Who has the record open already; null: nobody, it is ours. */
  readonly heldBy: string | null;
}

/** The record file holds no record; `sentences` say what is wrong and where. */
export class RecordUnusable extends Error {
  readonly sentences: readonly string[];
  constructor(sentences: readonly string[]) {
    super(sentences.join('\n'));
    this.sentences = sentences;
  }
}

function formInText(text: string): BenchForm {
  const read = readRecord(text);
  if (read.ok) return formOf(read.record);
  throw new RecordUnusable(
    read.problems.map(({ place, message }) => (place === '' ? message : `${place}: ${message}`)),
  );
}

function checkedForm(value: unknown): BenchForm | null {
  const parsed = benchRecordSchema.safeParse(value);
  return parsed.success ? formOf(parsed.data) : null;
}

export class Journal {
  readonly #files: Files;
  #path: string;
  /** What the record file held when we last read or wrote it; null: it did not exist. */
  #lastText: string | null = null;
  #trailStarted = false;
  #lock: string | null = null;

  constructor(path: string, files: Files = nodeFiles) {
    this.#files = files;
    this.#path = this.#resolved(path);
  }

  get path(): string {
    return this.#path;
  }

  /** Whether there was a record file when it was last looked at. */
  get hasFile(): boolean {
    return this.#lastText !== null;
  }

  /**
   * Opens the record with its trail. `blank` is the record to start with where there is neither.
   * @throws RecordUnusable with a sentence when there is a file but no record in it
   */
  open(blank: BenchForm): Opened {
    const text = this.#read(this.#path);
    const heldBy = this.#takeLock();
    this.#lastText = text;
    const trailText = this.#read(this.#trailPath);
    const trail = trailText === null ? null : readTrail(trailText, checkedForm);
    const opened = this.#reconcile(text, trail, blank);
    return { ...opened, heldBy };
  }

  #reconcile(text: string | null, trail: History | null, blank: BenchForm): Omit<Opened, 'heldBy'> {
    if (text === null) {
      if (trail === null) return { history: startHistory(blank, START_PLACE), notice: null };
      return { history: trail, notice: `${basename(this.#path)} was gone; it is rebuilt from its trail.` };
    }
    const inFile = formInText(text);
    if (trail === null) return { history: startHistory(inFile, START_PLACE), notice: null };
    const same = (form: BenchForm): boolean => isSameForm(form, inFile);
    if (same(trail.record)) return { history: trail, notice: null };
    const notInFile = [...trail.past].reverse().findIndex((step) => same(step.record)) + 1;
    if (notInFile > 0) {
      const edits = notInFile === 1 ? 'The last edit was' : `The last ${notInFile} edits were`;
      return { history: trail, notice: `${edits} in the trail only; nothing is lost. u undoes.` };
    }
    return {
      history: historyEdited(trail, inFile, trail.place, 'change made outside'),
      notice: `${basename(this.#path)} was changed by another program; u goes back to what was here before.`,
    };
  }

  /** Puts one change on disk; when it returns `saved`, the record is there to stay. */
  save(history: History, change: Change): SaveOutcome {
    const trailProblem = this.#appendTrail(history, change);
    if (change.kind === 'go') return { kind: 'saved', trailProblem };
    try {
      const onDisk = this.#read(this.#path);
      if (onDisk !== null && onDisk !== this.#lastText) return this.#changedOutside(onDisk);
      this.#replace(this.#path, formText(history.record));
      return { kind: 'saved', trailProblem };
    } catch (error) {
      return { kind: 'failed', problem: sentenceOf(error, this.#path) };
    }
  }

  /** Whether another program has changed the record since we last read or wrote it. */
  look(): SaveOutcome | null {
    try {
      const onDisk = this.#read(this.#path);
      return onDisk === null || onDisk === this.#lastText ? null : this.#changedOutside(onDisk);
    } catch {
      return null;
    }
  }

  /** A person has seen the outside version and decided; the file as it is now may be replaced. */
  acknowledgeOutside(): void {
    this.#lastText = this.#read(this.#path);
  }

  /** Keeps the outside version under another name before it is replaced. @returns that name */
  keepOutside(): string {
    const text = this.#read(this.#path) ?? '';
    const kept = freePath(`${this.#path}.other`, this.#files);
    this.#write(kept, 'wx', text);
    this.acknowledgeOutside();
    return kept;
  }

  /** Goes on in another file, which must not exist. */
  moveTo(path: string, history: History): SaveOutcome {
    const elsewhere = this.#resolved(path);
    try {
      if (this.#files.existsSync(elsewhere)) {
        return {
          kind: 'failed',
          problem: `${elsewhere} exists already; nothing is overwritten. Choose another name.`,
        };
      }
      this.#write(elsewhere, 'wx', formText(history.record));
    } catch (error) {
      return { kind: 'failed', problem: sentenceOf(error, elsewhere) };
    }
    this.#releaseLock();
    this.#path = elsewhere;
    this.#trailStarted = false;
    this.#takeLock();
    this.#lastText = this.#read(elsewhere);
    return { kind: 'saved', trailProblem: this.#appendTrail(history, { kind: 'go' }) };
  }

  /** Takes the record over from another bench screen. */
  takeOver(): void {
    try {
      this.#files.unlinkSync(this.#lockPath);
    } catch {
      // Gone already, or not ours to remove: the next save will say so.
    }
    this.#takeLock();
  }

  close(): void {
    this.#releaseLock();
  }

  get #trailPath(): string {
    return `${this.#path}.trail`;
  }

  get #lockPath(): string {
    return `${this.#path}.lock`;
  }

  #resolved(path: string): string {
    try {
      return this.#files.realpathSync(path);
    } catch {
      return path;
    }
  }

  #read(path: string): string | null {
    try {
      return this.#files.readFileSync(path, 'utf8');
    } catch (error) {
      if (codeOf(error) === 'ENOENT' || codeOf(error) === 'ENOTDIR') return null;
      throw error;
    }
  }

  /** @returns null, or one sentence when the undo history could not be kept */
  #appendTrail(history: History, change: Change): string | null {
    try {
      if (this.#trailStarted && change.kind !== 'again')
        this.#write(this.#trailPath, 'a', trailLine(history, change));
      else this.#replace(this.#trailPath, writeTrail(history));
      this.#trailStarted = true;
      return null;
    } catch (error) {
      // What was appended in part is dropped by starting the trail anew at the next save.
      this.#trailStarted = false;
      return sentenceOf(error, this.#trailPath);
    }
  }

  #write(path: string, flags: string, text: string, mode = 0o666): void {
    const file = this.#files.openSync(path, flags, mode);
    try {
      const bytes = Buffer.from(text, 'utf8');
      for (let written = 0; written < bytes.length; ) {
        written += this.#files.writeSync(file, bytes, written);
      }
      this.#files.fsyncSync(file);
    } finally {
      this.#files.closeSync(file);
    }
  }

  #replace(path: string, text: string): void {
    const temporary = join(dirname(path), `.${basename(path)}.${randomUUID().slice(0, 8)}.part`);
    try {
      this.#write(temporary, 'wx', text, this.#modeOf(path));
      this.#files.renameSync(temporary, path);
    } catch (error) {
      try {
        this.#files.unlinkSync(temporary);
      } catch {
        // It was never made.
      }
      throw error;
    }
    if (path === this.#path) this.#lastText = text;
    this.#syncFolder(dirname(path));
  }

  #modeOf(path: string): number {
    try {
      return this.#files.statSync(path).mode & 0o777;
    } catch {
      return 0o666;
    }
  }

  #syncFolder(folder: string): void {
    // Windows cannot sync a folder; there the rename alone has to do.
    if (process.platform === 'win32') return;
    const file = this.#files.openSync(folder, 'r');
    try {
      this.#files.fsyncSync(file);
    } finally {
      this.#files.closeSync(file);
    }
  }

  #changedOutside(text: string): SaveOutcome {
    const read = readRecord(text);
    return { kind: 'changed-outside', theirs: read.ok ? formOf(read.record) : null };
  }

  /** @returns who holds the lock, or null when it is ours now (or the folder takes no lock at all) */
  #takeLock(): string | null {
    const mine = JSON.stringify({
      pid: process.pid,
      host: hostname(),
      started: startedAt(process.pid, this.#files),
    });
    for (let attempt = 0; attempt < 2; attempt += 1) {
      try {
        this.#write(this.#lockPath, 'wx', mine);
        this.#lock = mine;
        return null;
      } catch (error) {
        if (codeOf(error) !== 'EEXIST') return null;
      }
      const holder = holderOf(this.#read(this.#lockPath) ?? '', this.#files);
      if (holder !== null) return holder;
      try {
        this.#files.unlinkSync(this.#lockPath);
      } catch {
        return null;
      }
    }
    return null;
  }

  #releaseLock(): void {
    try {
      if (this.#lock !== null && this.#read(this.#lockPath) === this.#lock)
        this.#files.unlinkSync(this.#lockPath);
    } catch {
      // A lock left behind is recognised as stale by the next start.
    }
    this.#lock = null;
  }
}

/** A name that is not taken: `bench.json`, `bench-2.json` ... */
export function freePath(wanted: string, files: Pick<Files, 'existsSync'> = nodeFiles): string {
  const [, stem, ending] = /^(.*?)(\.[^./\\]+)?$/s.exec(wanted)!;
  for (let count = 1; ; count += 1) {
    const path = count === 1 ? wanted : `${stem}-${count}${ending ?? ''}`;
    if (!files.existsSync(path)) return path;
  }
}

/** The holder of a lock in words; null when the program that wrote it no longer runs. */
function holderOf(text: string, files: Files): string | null {
  try {
    const { pid, host, started } = JSON.parse(text) as { pid: number; host: string; started: string | null };
    if (host !== hostname()) return `a bench screen on ${host}`;
    process.kill(pid, 0);
    return startedAt(pid, files) === started && pid !== process.pid
      ? `another bench screen (process ${pid})`
      : null;
  } catch (error) {
    return codeOf(error) === 'EPERM' ? 'a bench screen of another user' : null;
  }
}

/** When a process began, as the system counts it; tells a running program from a later one with its number. */
function startedAt(pid: number, files: Files): string | null {
  try {
    const afterName = files.readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1)!;
    return afterName.split(' ')[19] ?? null;
  } catch {
    return null;
  }
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'no permission to write there',
  EPERM: 'no permission to write there',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  ENOENT: 'the folder is gone',
  ENOTDIR: 'the folder is gone',
  EISDIR: 'that is a folder',
  EIO: 'the disk reports a fault',
};

function sentenceOf(error: unknown, path: string): string {
  const code = codeOf(error);
  return `${basename(path)} cannot be written: ${(code && REASONS[code]) ?? code ?? 'unknown fault'}.`;
}

function codeOf(error: unknown): string | undefined {
  const code = (error as { code?: unknown } | null)?.code;
  return typeof code === 'string' ? code : undefined;
}
