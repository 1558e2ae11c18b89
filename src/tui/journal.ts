/**
 * Keeping the record on disk: the only place of the bench screen that touches files.
 *
 * Every accepted edit is first appended to the trail (`bench.json.trail`) and synced, then the record itself is
 * replaced whole: a temporary file in the same folder, synced, renamed over the record, the folder synced. So the
 * record is a complete, readable file at every moment, for scripts and people too, and the trail holds the undo
 * history and any edit that a crash kept from the record. One of the two alone would do for safety; together they
 * give both a plain file and a history. `bench.json.lock` says that a bench screen has the record open.
 */
import * as nodeFiles from 'node:fs';
import { basename, dirname } from 'node:path';
import { sentenceOf } from './disk-fault.ts';
import { type Files, freePath, readText, replaceWhole, syncFolder, writeSynced } from './files.ts';
import { type BenchForm, formText } from './form.ts';
import { RecordLock } from './lock.ts';
import { type Reconciled, reconcile } from './reconcile.ts';
import type { RecordReader } from './record-reader.ts';
import { type Change, type History, readTrail, trailLine, writeTrail } from './trail.ts';

export type SaveOutcome =
  | { readonly kind: 'saved'; readonly trailProblem: string | null }
  | { readonly kind: 'failed'; readonly problem: string }
  | { readonly kind: 'changed-outside'; readonly theirs: BenchForm | null };

export interface Opened extends Reconciled {
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

export class Journal {
  readonly #files: Files;
  /** Loaded where there is something to read, else after the first frame. */
  #reader: RecordReader | null = null;
  #path: string;
  /** What the record file held when we last read or wrote it; null: it did not exist. */
  #lastText: string | null = null;
  /** The outside version that a person was told of; only this one may be replaced. */
  #outsideText: string | null = null;
  #trailStarted = false;
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
    return this.#lastText !== null;
  }

  /**
   * Opens the record with its trail. `blank` is the record to start with where there is neither.
   * @throws RecordUnusable with a sentence when there is a file but no record in it
   */
  async open(blank: BenchForm): Promise<Opened> {
    const text = this.#read(this.#path);
    const heldBy = this.#lock.take();
    this.#lastText = text;
    const trailText = this.#read(this.#trailPath);
    if (text !== null || trailText !== null) await this.prepare();
    const trail =
      trailText === null ? null : readTrail(trailText, (value) => this.#reader!.checkedForm(value));
    const inFile = text === null ? null : this.#formIn(text);
    return { ...reconcile(inFile, trail, { blank, name: basename(this.#path) }), heldBy };
  }

  #formIn(text: string): BenchForm {
    const read = this.#reader!.readForm(text);
    if ('sentences' in read) throw new RecordUnusable(read.sentences);
    return read.form;
  }

  /** Loads what is needed to understand a file that another program has changed. */
  async prepare(): Promise<void> {
    this.#reader ??= (await import('./record-reader.ts')).recordReader;
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

  /** A person was told of the outside version and has decided: it may be replaced. */
  acknowledgeOutside(): void {
    this.#lastText = this.#outsideText;
  }

  /** Keeps the outside version under another name before it is replaced. @returns that name */
  keepOutside(): string {
    const kept = freePath(`${this.#path}.other`, this.#files);
    writeSynced(this.#files, kept, 'wx', this.#outsideText ?? '');
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
      writeSynced(this.#files, elsewhere, 'wx', formText(history.record));
    } catch (error) {
      return { kind: 'failed', problem: sentenceOf(error, elsewhere) };
    }
    this.#lock.release();
    this.#path = elsewhere;
    this.#lock = new RecordLock(this.#files, `${elsewhere}.lock`);
    this.#trailStarted = false;
    this.#lock.take();
    this.#lastText = this.#read(elsewhere);
    return { kind: 'saved', trailProblem: this.#appendTrail(history, { kind: 'go' }) };
  }

  /** Takes the lock if the bench screen that held it has gone. @returns whether it is ours now */
  lockIsFree(): boolean {
    return this.#lock.take() === null;
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

  #read(path: string): string | null {
    return readText(this.#files, path);
  }

  /** @returns null, or one sentence when the undo history could not be kept */
  #appendTrail(history: History, change: Change): string | null {
    try {
      if (this.#trailStarted && change.kind !== 'again')
        writeSynced(this.#files, this.#trailPath, 'a', trailLine(history, change));
      else this.#replace(this.#trailPath, writeTrail(history));
      this.#trailStarted = true;
      return null;
    } catch (error) {
      // What was appended in part is dropped by starting the trail anew at the next save.
      this.#trailStarted = false;
      return sentenceOf(error, this.#trailPath);
    }
  }

  #replace(path: string, text: string): void {
    replaceWhole(this.#files, path, text);
    if (path === this.#path) this.#lastText = text;
    syncFolder(this.#files, dirname(path));
  }

  #changedOutside(text: string): SaveOutcome {
    this.#outsideText = text;
    const read = this.#reader?.readForm(text) ?? { sentences: [] };
    return { kind: 'changed-outside', theirs: 'form' in read ? read.form : null };
  }
}
