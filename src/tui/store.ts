/**
 * The one place that holds the state: it feeds keys to the reducer, puts every change on disk before anything is
 * drawn, and has the analysis computed after the frame. Reading the state here, never in a view's closure, is what
 * keeps runs of keys in one chunk right.
 */
import { wayTo } from './action-list.ts';
import type { Action } from './actions.ts';
import { actionFor, actionForText } from './commands.ts';
import type { Computation } from './computation.ts';
import type { Journal, SaveOutcome } from './journal.ts';
import { endPaste, KEY_READER_START, type KeyReaderState, type KeysRead, readKeys } from './keys.ts';
import { withAdvice } from './known-lamp.ts';
import { reduce } from './reduce.ts';
import { withoutUnreadable } from './refused-edit.ts';
import { type ReportOutcome, reportSentence, type WantedReport } from './report-file.ts';
import { analysed } from './result-now.ts';
import type { Keeping, Notice, Request, ScreenState } from './state.ts';

export interface Outside {
  readonly journal: Journal;
  ringBell(): void;
  quit(): void;
  loadComputation(): Promise<Computation>;
  writeReport(wanted: WantedReport, computation: Computation): Promise<ReportOutcome>;
  /** Runs after the frame that is being drawn; returns what cancels it. */
  later(run: () => void): () => void;
  /** Runs when no key has come for a while; returns what cancels it. */
  whenQuiet(run: () => void): () => void;
}

/** Why nothing is written to the file. */
export interface NotWriting {
  readonly why: string;
  /** Another bench screen has the record open; it can be taken over. */
  readonly isHeld: boolean;
}

export class BenchStore {
  #state: ScreenState;
  #keys: KeyReaderState = KEY_READER_START;
  readonly #waiting: string[] = [];
  readonly #outside: Outside;
  readonly #listeners = new Set<() => void>();
  readonly #journal: Journal;
  #cancelAnalysis: (() => void) | null = null;
  #cancelPause: (() => void) | null = null;
  #notWriting: NotWriting | null;
  /** What will be said of the report that is being written. */
  #report: Promise<string> | null = null;
  #isClosed = false;

  constructor(state: ScreenState, outside: Outside, notWriting: NotWriting | null = null) {
    this.#outside = outside;
    this.#journal = outside.journal;
    this.#notWriting = notWriting;
    this.#state = state;
    this.#computeLater();
  }

  readonly getState = (): ScreenState => this.#state;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** One chunk from the terminal. What judges a reading and a record comes after the first frame; keys wait. */
  readonly input = (chunk: string): void => {
    if (this.#isReady) this.#take(chunk);
    else if (this.#waiting.push(chunk) === 1) void this.#takeWaiting();
  };

  get #isReady(): boolean {
    return this.#journal.isReady && this.#state.computation !== null;
  }

  async #prepare(): Promise<Computation> {
    const [computation] = await Promise.all([this.#outside.loadComputation(), this.#journal.prepare()]);
    this.#state = { ...this.#state, computation };
    return computation;
  }

  async #takeWaiting(): Promise<void> {
    await this.#prepare();
    for (const chunk of this.#waiting.splice(0)) this.#take(chunk);
  }

  #take(chunk: string): void {
    this.#cancelPause?.();
    this.#cancelPause = null;
    this.#act(readKeys(this.#keys, chunk));
    // A closing mark that never comes must not leave every key inside the paste.
    if (this.#keys.pasted !== null)
      this.#cancelPause = this.#outside.whenQuiet(() => this.#act(endPaste(this.#keys)));
  }

  #act({ state, events }: KeysRead): void {
    this.#keys = state;
    for (const event of events) {
      if (event.kind === 'text') {
        for (const character of event.text) this.#apply(actionForText(this.#state, character));
      } else this.#apply(actionFor(this.#state, event));
    }
    this.#changed();
  }

  readonly dispatch = (action: Action): void => {
    this.#apply(action);
    this.#changed();
  };

  /** Looks whether the file was changed by another program meanwhile. */
  readonly lookAtDisk = (): void => {
    if (this.#notWriting !== null || this.#state.overlay !== null) return;
    const outcome = this.#journal.look();
    if (outcome?.kind === 'changed-outside')
      this.dispatch({ type: 'changed-outside', theirs: outcome.theirs });
  };

  /** The place where one is, kept for the next start. Once: after it the record may be another program's. */
  readonly close = (): void => {
    if (this.#isClosed) return;
    this.#isClosed = true;
    this.#cancelAnalysis?.();
    this.#cancelPause?.();
    if (this.#state.keeping.kind === 'saved' && this.#notWriting === null) {
      this.#journal.save(this.#state.history, { kind: 'go' });
    }
    this.#journal.close();
  };

  #changed(): void {
    for (const listener of this.#listeners) listener();
    this.#computeLater();
  }

  #apply(action: Action | null): void {
    if (action === null) return;
    const before = this.#state;
    if (action.type === 'take-theirs') this.#journal.acknowledgeOutside();
    this.#state = withoutUnreadable(before, reduce(before, action), (form) =>
      this.#journal.whyUnreadable(form),
    );
    if (this.#state.changeCount !== before.changeCount) this.#save();
    if (this.#state.request !== null) this.#serve();
  }

  #save(): void {
    const { history, lastChange } = this.#state;
    if (lastChange === null) return;
    if (lastChange.kind === 'go' && this.#state.keeping.kind !== 'saved') return;
    if (this.#notWriting?.isHeld === true && this.#journal.lockIsFree()) this.#notWriting = null;
    if (this.#notWriting !== null) this.#kept({ kind: 'memory-only', why: this.#notWriting.why }, null);
    else this.#tell(this.#journal.save(history, lastChange));
    if (this.#state.bell && lastChange.kind === 'edit' && this.#state.keeping.kind === 'saved')
      this.#outside.ringBell();
  }

  #tell(outcome: SaveOutcome): void {
    switch (outcome.kind) {
      case 'saved': {
        const text = `The record is saved, its undo history is not: ${outcome.trailProblem}`;
        this.#kept({ kind: 'saved' }, outcome.trailProblem === null ? null : { tone: 'doubt', text });
        break;
      }
      case 'failed': {
        const text = `${outcome.problem} Go on: all is kept in memory and tried again. ${wayTo('save-as')} puts it elsewhere.`;
        this.#kept({ kind: 'memory-only', why: outcome.problem }, { tone: 'doubt', text });
        break;
      }
      case 'changed-outside':
        this.#kept({ kind: 'memory-only', why: 'the file was changed by another program.' }, null);
        this.#state = reduce(this.#state, { type: 'changed-outside', theirs: outcome.theirs });
    }
  }

  #kept(keeping: Keeping, notice: Notice | null): void {
    const fileName = this.#journal.path;
    this.#state = reduce(this.#state, { type: 'kept', keeping, notice, fileName });
  }

  #serve(): void {
    const { request } = this.#state;
    if (request?.kind === 'quit') this.#outside.quit();
    else if (request?.kind === 'save-to') this.#moveTo(request.path);
    else if (request?.kind === 'write-report') void this.#writeReport(request);
    else if (request?.kind === 'keep-mine') this.#keepMine();
    else if (request?.kind === 'take-over') this.#takeOver();
  }

  #moveTo(path: string): void {
    const outcome = this.#journal.moveTo(path, this.#state.history);
    if (outcome.kind !== 'saved') {
      const text =
        outcome.kind === 'failed' ? outcome.problem : 'That file is being changed by another program.';
      this.#kept(this.#state.keeping, { tone: 'doubt', text });
      return;
    }
    this.#notWriting = null;
    this.#kept({ kind: 'saved' }, { tone: 'good', text: `Kept in ${this.#journal.path} from now on.` });
  }

  /** What becomes of a report that was asked for just before leaving; null where none is being written. */
  async lateReport(): Promise<string | null> {
    return this.#report;
  }

  async #writeReport({ path, mayReplace }: Extract<Request, { kind: 'write-report' }>): Promise<void> {
    const { history, fileName, computation } = this.#state;
    this.#state = { ...this.#state, request: null };
    if (computation === null) return;
    const wanted = { form: history.record, recordName: fileName, path, mayReplace };
    const writing = this.#outside.writeReport(wanted, computation);
    this.#report = writing.then((outcome) => reportSentence(path, outcome));
    const outcome = await writing;
    this.#report = null;
    if (!this.#isClosed) this.dispatch({ type: 'report-done', path, outcome });
  }

  #keepMine(): void {
    try {
      const kept = this.#journal.keepOutside();
      this.#tell(this.#journal.save(this.#state.history, { kind: 'again' }));
      if (this.#state.keeping.kind !== 'saved') return;
      const text = `Yours is saved; the other version is in ${kept}.`;
      this.#kept({ kind: 'saved' }, { tone: 'good', text });
    } catch {
      const why = 'the other version could not be put aside, so nothing was replaced.';
      const text = `Not saved: ${why} ${wayTo('save-as')} puts yours elsewhere.`;
      this.#kept({ kind: 'memory-only', why }, { tone: 'doubt', text });
    }
  }

  #takeOver(): void {
    if (this.#notWriting?.isHeld !== true) {
      this.#kept(this.#state.keeping, { tone: 'plain', text: 'No other bench screen has this record open.' });
      return;
    }
    this.#journal.takeOver();
    this.#notWriting = null;
    this.#tell(this.#journal.save(this.#state.history, { kind: 'again' }));
  }

  /** The latest record wins; and a computation that has not begun waits for a pause in the typing. */
  #computeLater(): void {
    if (this.#isAnalysed) return;
    this.#cancelAnalysis?.();
    this.#cancelAnalysis = this.#outside.later(() => {
      this.#cancelAnalysis = null;
      if (this.#isReady) this.#analyse();
      else void this.#prepare().then(() => this.#analyse());
    });
  }

  get #isAnalysed(): boolean {
    return this.#state.history.record === this.#state.result?.form;
  }

  #analyse(): void {
    const { computation, history } = this.#state;
    if (computation === null || this.#isAnalysed || this.#isClosed) return;
    const result = analysed(history.record, computation);
    this.dispatch({ type: 'analysed', result: withAdvice({ ...this.#state, result }) });
  }
}
