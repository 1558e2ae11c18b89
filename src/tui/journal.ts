/**
 * Keeping the record on disk: the only place of the bench screen that touches files.
 *
 * Every accepted edit is first appended to the trail (`bench.json.trail`) and synced, then the record itself is
 * replaced whole: a temporary file in the same folder, synced, renamed over the record, the folder synced. What would
 * not be read back as it is never takes the record's place (`readableText`). So the record is a complete, readable file at every moment, for scripts and people too, and the trail holds the undo
 * history and any edit that a crash kept from the record. One of the two alone would do for safety; together they
 * give both a plain file and a history. `bench.json.lock` says that a bench screen has the record open.
 */
import * as nodeFiles from 'node:fs';
import { basename, dirname } from 'node:path';
import { FileRefused, textOf } from '../disk/read-regular-file.ts';
import { reasonOf } from '../disk/reasons.ts';
import { replaceWhole, writeSynced } from '../disk/write-whole.ts';
import { codeOf, sentenceOf } from './disk-fault.ts';
import { type Files, freePath, readBytes, syncFolder } from './files.ts';
import type { BenchForm } from './form.ts';
import { RecordLock } from './lock.ts';
import { type Reconciled, reconcile } from './reconcile.ts';
import type { RecordReader } from './record-reader.ts';
import { type Change, type History, readTrail, trailLine, wholeLines, writeTrail } from './trail.ts';

export type SaveOutcome =
  | { readonly kind: 'saved'; readonly trailProblem: string | null }
  | { readonly kind: 'failed'; readonly problem: string }
  | { readonly kind: 'changed-outside'; readonly theirs: BenchForm | null };

interface Opened extends Reconciled {
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

/** A trail holds the record once for every edit. A longer one is begun anew, with a part of the history. */
const MOST_TRAIL_BYTES = 64 * 1024 * 1024;

export class Journal {
  readonly #files: Files;
  /** Loaded where there is something to read, else after the first frame. */
  #reader: RecordReader | null = null;
  #path: string;
  /** What the record file held when we last read or wrote it; null: it did not exist. */
  #lastBytes: Buffer | null = null;
  /** The outside version that a person was told of; only this one may be replaced. */
  #outsideBytes: Buffer | null = null;
  /** The record that an edit was looked at with is the one that is saved next. */
  #lastWritten: { readonly form: BenchForm; readonly text: string } | null = null;
  #trailStarted = false;
  #trailLength = 0;
  #lock: RecordLock;

  constructor(path: string, files: Files = nodeFiles) {
    this.#files = files;
    this.#path = this.#resolved(path);
    this.#lock = new RecordLock(files, `${this.#path}.lock`);
  }

  get path(): string {
    return this.#path;
  }

  /** Whether there was a record file when it was last looked at. */
  get hasFile(): boolean {
    return this.#lastBytes !== null;
  }

  /** Whether a record can be checked, so that it may be written: after `prepare`. */
  get isReady(): boolean {
    return this.#reader !== null;
  }

  /**
   * Opens the record with its trail. `blank` is the record to start with where there is neither.
   * @throws RecordUnusable with sentences when there is a file but no record in it, or it cannot be read; then nothing
   * is changed
   */
  async open(blank: BenchForm): Promise<Opened> {
    try {
      const bytes = usable(null, () => this.#read(this.#path));
      const heldBy = usable(this.#lock.path, () => this.#lock.take());
      this.#lastBytes = bytes;
      const trailBytes = usable(this.#trailPath, () =>
        readBytes(this.#files, this.#trailPath, MOST_TRAIL_BYTES),
      );
      if (bytes !== null || trailBytes !== null) await this.prepare();
      const trail =
        trailBytes === null
          ? null
          : readTrail(wholeLines(trailBytes), (value) => this.#reader!.checkedForm(value));
      const inFile = bytes === null ? null : this.#formIn(bytes);
      return { ...reconcile(inFile, trail, { blank, name: basename(this.#path) }), heldBy };
    } catch (error) {
      this.#lock.release();
      throw error;
    }
  }

  #formIn(bytes: Buffer): BenchForm {
    const text = usable(null, () => textOf(bytes));
    const read = this.#reader!.readForm(text);
    if ('sentences' in read) throw new RecordUnusable(read.sentences);
    return read.form;
  }

  /** Loads what is needed to understand a file, and to check one that is to be written. */
  async prepare(): Promise<void> {
    this.#reader ??= (await import('./record-reader.ts')).recordReader;
  }

  /** Puts one change on disk; when it returns `saved`, the record is there to stay. */
  save(history: History, change: Change): SaveOutcome {
    const trailProblem = this.#appendTrail(history, change);
    if (change.kind === 'go') return { kind: 'saved', trailProblem };
    try {
      const onDisk = this.#read(this.#path);
      if (onDisk !== null && !this.#isLast(onDisk)) return this.#changedOutside(onDisk);
      const written = this.#written(history.record);
      if ('why' in written) return notWritten(written.why);
      this.#replace(this.#path, written.text);
      return { kind: 'saved', trailProblem };
    } catch (error) {
      return { kind: 'failed', problem: sentenceOf(error, this.#path) };
    }
  }

  /** Why a record could not be opened again once it was written, in a sentence; null where it could. */
  whyUnreadable(form: BenchForm): string | null {
    const written = this.#written(form);
    return 'text' in written ? null : written.why;
  }

  /** What is written for a record, or one sentence that says why nothing is. */
  #written(form: BenchForm): { readonly text: string } | { readonly why: string } {
    if (this.#lastWritten?.form === form) return { text: this.#lastWritten.text };
    const written = this.#reader?.readableText(form) ?? { sentences: ['the program is not ready yet'] };
    if ('text' in written) {
      this.#lastWritten = { form, text: written.text };
      return written;
    }
    const [first = '', ...more] = written.sentences;
    return { why: `${first}${more.length === 0 ? '' : ` (and ${more.length} more like this)`}.` };
  }

  /** Whether another program has changed the record since we last read or wrote it. */
  look(): SaveOutcome | null {
    try {
      const onDisk = this.#read(this.#path);
      return onDisk === null || this.#isLast(onDisk) ? null : this.#changedOutside(onDisk);
    } catch {
      return null;
    }
  }

  /** A person was told of the outside version and has decided: it may be replaced. */
  acknowledgeOutside(): void {
    this.#lastBytes = this.#outsideBytes;
  }

  /** Keeps the outside version under another name before it is replaced. @returns that name */
  keepOutside(): string {
    const kept = freePath(`${this.#path}.other`, this.#files);
    writeSynced(this.#files, kept, 'wx', this.#outsideBytes ?? '');
    this.acknowledgeOutside();
    return kept;
  }

  /** Goes on in another file, which must not exist. */
  moveTo(path: string, history: History): SaveOutcome {
    const elsewhere = this.#resolved(path);
    try {
      const problem = `${elsewhere} exists already; nothing is overwritten. Choose another name.`;
      if (this.#files.existsSync(elsewhere)) return { kind: 'failed', problem };
      const written = this.#written(history.record);
      if ('why' in written) return notWritten(written.why);
      writeSynced(this.#files, elsewhere, 'wx', written.text);
    } catch (error) {
      return { kind: 'failed', problem: sentenceOf(error, elsewhere) };
    }
    this.#lock.release();
    this.#path = elsewhere;
    this.#lock = new RecordLock(this.#files, `${elsewhere}.lock`);
    this.#trailStarted = false;
    this.#lock.take();
    this.#lastBytes = this.#read(elsewhere);
    return { kind: 'saved', trailProblem: this.#appendTrail(history, { kind: 'go' }) };
  }

  /** Takes the lock if the bench screen that held it has gone. @returns whether it is ours now */
  lockIsFree(): boolean {
    try {
      return this.#lock.take() === null;
    } catch {
      return false;
    }
  }

  /** Takes the record over from another bench screen. */
  takeOver(): void {
    this.#lock.takeOver();
  }

  close(): void {
    this.#lock.release();
  }

  get #trailPath(): string {
    return `${this.#path}.trail`;
  }

  #resolved(path: string): string {
    try {
      return this.#files.realpathSync(path);
    } catch {
      return path;
    }
  }

  #read(path: string): Buffer | null {
    return readBytes(this.#files, path);
  }

  #isLast(bytes: Buffer): boolean {
    return this.#lastBytes?.equals(bytes) === true;
  }

  /** @returns null, or one sentence when the undo history could not be kept */
  #appendTrail(history: History, change: Change): string | null {
    try {
      if (this.#trailStarted && change.kind !== 'again' && this.#trailLength < MOST_TRAIL_BYTES / 2) {
        const line = trailLine(history, change);
        writeSynced(this.#files, this.#trailPath, 'a', line);
        this.#trailLength += Buffer.byteLength(line);
      } else {
        const text = shortTrail(history, MOST_TRAIL_BYTES / 4);
        this.#replace(this.#trailPath, text);
        this.#trailLength = Buffer.byteLength(text);
      }
      this.#trailStarted = true;
      return null;
    } catch (error) {
      // What was appended in part is dropped by starting the trail anew at the next save.
      this.#trailStarted = false;
      return sentenceOf(error, this.#trailPath);
    }
  }

  #replace(path: string, text: string): void {
    replaceWhole(path, text, this.#files);
    if (path === this.#path) this.#lastBytes = Buffer.from(text);
    syncFolder(this.#files, dirname(path));
  }

  #changedOutside(bytes: Buffer): SaveOutcome {
    this.#outsideBytes = bytes;
    try {
      return { kind: 'changed-outside', theirs: this.#formIn(bytes) };
    } catch {
      return { kind: 'changed-outside', theirs: null };
    }
  }
}

function notWritten(why: string): SaveOutcome {
  const problem = `Not written, because the file could not be opened again: ${why} What was saved last stays as it is.`;
  return { kind: 'failed', problem };
}

/** A whole trail of at most so many bytes, unless the record alone has more; the oldest steps go first. */
function shortTrail(history: History, mostBytes: number): string {
  const text = writeTrail(history);
  if (Buffer.byteLength(text) <= mostBytes || history.past.length === 0) return text;
  const past = history.past.slice(Math.ceil(history.past.length / 2));
  return shortTrail({ ...history, past }, mostBytes);
}

/** What opening a record needs; `beside`: a file that belongs to it, null for the record itself. */
function usable<Value>(beside: string | null, read: () => Value): Value {
  try {
    return read();
  } catch (error) {
    const code = codeOf(error);
    if (!(error instanceof FileRefused) && code === undefined) throw error;
    const why = error instanceof FileRefused ? error.message : `cannot be read: ${reasonOf(code ?? '')}`;
    throw new RecordUnusable([beside === null ? why : `${basename(beside)} beside it: ${why}`]);
  }
}
