/** The bench screen without a terminal: keys in, state out. */
import { type ActionId, benchAction } from '../../src/tui/action-list.ts';
import { type Computation, computation } from '../../src/tui/computation.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import type { Journal } from '../../src/tui/journal.ts';
import { recordReader } from '../../src/tui/record-reader.ts';
import type { ScreenState } from '../../src/tui/state.ts';
import { BenchStore, type Outside } from '../../src/tui/store.ts';
import { analyseFixture, startStateOf } from './fixture.ts';

export const KEYS = {
  enter: '\r',
  escape: '\x1b',
  tab: '\t',
  backTab: '\x1b[Z',
  up: '\x1b[A',
  down: '\x1b[B',
  left: '\x1b[D',
  right: '\x1b[C',
  backspace: '\x7f',
  edit: '\x1bOQ',
  look: '\x1bOR',
  quickCheck: '\x1bOS',
  delete: '\x1b[3~',
  undo: '\x1a',
  redo: '\x19',
  leave: '\x03',
} as const;

/** What one types to choose an action from the list. */
export function act(id: ActionId): string {
  return `/${benchAction(id)!.label}\r`;
}

export interface Bench {
  /** Types chunks; the computation runs after each. */
  type(...chunks: readonly string[]): ScreenState;
  /** Types chunks so fast that nothing is computed meanwhile. */
  typeFast(...chunks: readonly string[]): ScreenState;
  state(): ScreenState;
  /** Computes what stands there. */
  compute(): ScreenState;
  /** The time passes after which a paste without an end is over. */
  pause(): ScreenState;
  readonly store: BenchStore;
  hasQuit(): boolean;
}

const KEEPS_NOTHING = {
  path: 'bench.json',
  isReady: true,
  prepare: async () => {},
  whyUnreadable: (form: BenchForm) => {
    const written = recordReader.readableText(form);
    return 'text' in written ? null : written.sentences.join('; ');
  },
  save: () => ({ kind: 'saved', trailProblem: null }),
  look: () => null,
  close: () => {},
} as unknown as Journal;

/** Keys at random must not write files. */
const NO_REPORT: Outside['writeReport'] = async () => ({ kind: 'refused', problem: 'No disk here.' });

export function openBench(
  form: BenchForm,
  journal: Journal = KEEPS_NOTHING,
  analyse: Computation['analyse'] = analyseFixture,
  { isLoaded = true, isComputed = true, report = NO_REPORT } = {},
): Bench {
  let waiting: (() => void) | null = null;
  let quit = false;
  let whenQuiet: (() => void) | null = null;
  const computing = { ...computation, analyse };
  const store = new BenchStore(
    { ...startStateOf(form), computation: isLoaded ? computing : null },
    {
      journal,
      loadComputation: async () => computing,
      writeReport: report,
      ringBell: () => {},
      quit: () => {
        quit = true;
      },
      later: (run) => {
        waiting = run;
        return () => {
          waiting = null;
        };
      },
      whenQuiet: (run) => {
        whenQuiet = run;
        return () => {
          whenQuiet = null;
        };
      },
    },
  );
  const pause = (): ScreenState => {
    const run = whenQuiet;
    whenQuiet = null;
    run?.();
    return store.getState();
  };
  const compute = (): ScreenState => {
    const run = waiting;
    waiting = null;
    run?.();
    return store.getState();
  };
  if (isComputed) compute();
  return {
    store,
    compute,
    pause,
    state: store.getState,
    hasQuit: () => quit,
    typeFast: (...chunks) => {
      for (const chunk of chunks) store.input(chunk);
      return store.getState();
    },
    type: (...chunks) => {
      for (const chunk of chunks) {
        store.input(chunk);
        compute();
      }
      return store.getState();
    },
  };
}
