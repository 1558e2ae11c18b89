/** Starts the bench screen: opens the record, takes the terminal, and gives it back whatever happens. */
import { wayTo } from './action-list.ts';
import { farewell } from './farewell.ts';
import { freePath, removeUnfinished } from './files.ts';
import { BLANK_FORM } from './form.ts';
import { Journal, RecordUnusable } from './journal.ts';
import { writeReport } from './report-file.ts';
import { withSignedMinutes } from './signed-minutes.ts';
import { type Keeping, type Place, type ScreenState, START_PLACE, startState } from './state.ts';
import { BenchStore, type NotWriting, type Outside } from './store.ts';
import { EXIT_FAULT, ringBell, sayOutside, takeTerminal } from './terminal.ts';
import { type Change, startHistory } from './trail.ts';

interface BenchScreenOptions {
  /** Null: a new record, under a name that is free. */
  readonly recordPath: string | null;
  /** Opens the bundled example and writes nothing. */
  readonly demo: boolean;
  /** Plain characters only. */
  readonly ascii: boolean;
}

const NEW_RECORD = 'bench.json';
/** The computation waits for this pause in the typing, milliseconds: it must not stand in the way of a key. */
const PAUSE_MS = 120;

/** A paste is taken as ended when nothing has come for so long, milliseconds. */
const PASTE_PAUSE_MS = 1000;

const EXIT_UNUSABLE = 2;

/** Runs until the person leaves. @returns the exit code */
export async function startBenchScreen(options: BenchScreenOptions): Promise<number> {
  // Ink's colour library knows FORCE_COLOR only and looks at it when it is loaded.
  if (process.env.NO_COLOR) process.env.FORCE_COLOR = '0';
  const { render, BenchApp } = await import('./app.tsx');
  let session: Session;
  try {
    session = options.demo ? await openDemo() : await openRecord(options.recordPath);
  } catch (error) {
    if (!(error instanceof RecordUnusable)) throw error;
    sayOutside(...error.sentences.map((sentence) => `${options.recordPath ?? NEW_RECORD}: ${sentence}`));
    return EXIT_UNUSABLE;
  }
  const { state, journal, notWriting } = session;
  let leave = (): void => {};
  const outside = outsideOf(journal, () => leave());
  const store = new BenchStore(state, outside, notWriting);
  const terminal = takeTerminal(() => store.close());
  try {
    const app = render(<BenchApp store={store} ascii={options.ascii} />, {
      exitOnCtrlC: false,
      // Ink 6.8 miscounts by one line with it, and leaves stale lines on the screen.
      incrementalRendering: false,
      patchConsole: false,
    });
    leave = () => app.unmount();
    await app.waitUntilExit();
    terminal.close();
    const ofTheReport = await store.lateReport();
    if (ofTheReport !== null) sayOutside(ofTheReport);
    sayOutside(...farewell(store.getState()));
    return 0;
  } catch (error) {
    terminal.close();
    sayOutside(`the screen stopped: ${error instanceof Error ? error.message : String(error)}`);
    return EXIT_FAULT;
  } finally {
    terminal.close();
  }
}

/** What the store does outside: loading what computes, the bell, leaving. */
function outsideOf(journal: Journal, quit: () => void): Outside {
  return {
    journal,
    ringBell,
    quit,
    // The first frame does not wait for it.
    loadComputation: async () => (await import('./computation.ts')).computation,
    writeReport: (wanted, computation) => writeReport(wanted, computation, today()),
    later: after(PAUSE_MS),
    whenQuiet: after(PASTE_PAUSE_MS),
  };
}

/** What runs something after so many milliseconds, and returns what cancels it. */
const after = (delayMs: number) => (run: () => void) => {
  const timer = setTimeout(run, delayMs);
  return () => clearTimeout(timer);
};

/** The local date as ISO 8601 writes it (the Swedish form of a date is that). */
function today(): string {
  return new Date().toLocaleDateString('sv-SE');
}

interface Session {
  readonly state: ScreenState;
  readonly journal: Journal;
  /** Why nothing is written to the file; null: it is. */
  readonly notWriting: NotWriting | null;
}

async function openRecord(path: string | null): Promise<Session> {
  const journal = new Journal(path ?? freePath(NEW_RECORD));
  const opened = await journal.open(BLANK_FORM);
  const { heldBy, isBehind } = opened;
  if (heldBy === null) removeUnfinished(journal.path);
  const settled = withSignedMinutes(opened.history);
  const history = settled?.history ?? opened.history;
  const notice = [opened.notice, settled?.remark].filter(Boolean).join(' ') || null;
  const state = startState(history, journal.path);
  if (heldBy === null) {
    if (isBehind && settled !== null) journal.save(opened.history, { kind: 'again' });
    const change: Change = settled === null ? { kind: 'again' } : { kind: 'edit', what: settled.what };
    const outcome = isBehind || settled !== null ? journal.save(history, change) : null;
    const keeping: Keeping =
      outcome?.kind === 'failed'
        ? { kind: 'memory-only', why: outcome.problem }
        : { kind: journal.hasFile ? 'saved' : 'nothing-yet' };
    return { state: told({ ...state, keeping }, notice), journal, notWriting: null };
  }
  const why = `${heldBy} has this record open.`;
  const cure = `What you type stays in memory; ${wayTo('save-as')} puts it elsewhere, ${wayTo('take-over')} takes it over.`;
  return {
    state: told({ ...state, keeping: { kind: 'memory-only', why } }, `${why} ${cure}`),
    journal,
    notWriting: { why, isHeld: true },
  };
}

function told(state: ScreenState, text: string | null): ScreenState {
  return text === null ? state : { ...state, notice: { tone: 'doubt', text } };
}

async function openDemo(): Promise<Session> {
  const { demoBench } = await import('./demo-bench.ts');
  const place: Place = { ...START_PLACE, stage: 'tube', row: demoBench.unknown[0]?.lines.length ?? 0 };
  const state = startState(startHistory(demoBench, place), 'demonstration');
  const notice = `An invented bench to play with; nothing is written to disk (${wayTo('save-as')}: a file).`;
  return {
    state: { ...state, keeping: { kind: 'demonstration' }, notice: { tone: 'plain', text: notice } },
    journal: new Journal(freePath(NEW_RECORD)),
    notWriting: { why: 'the demonstration writes no file.', isHeld: false },
  };
}
