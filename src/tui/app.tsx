/** Joins the store to Ink: keys in, frames out. */
import { useIsScreenReaderEnabled, useStdin, useStdout } from 'ink';
import { useCallback, useEffect, useSyncExternalStore } from 'react';
import { shownCandidates } from './ranking.ts';
import type { BenchStore } from './store.ts';
import { LinearScreen } from './views/linear.tsx';
import { BenchScreen } from './views/screen.tsx';

export { render } from 'ink';

const DISK_LOOK_MS = 2000;

interface BenchAppProps {
  readonly store: BenchStore;
  readonly ascii: boolean;
  /** Size of the terminal where it does not say (tests). */
  readonly assumedSize?: TerminalSize;
}

interface TerminalSize {
  readonly columns: number;
  readonly rows: number;
}

export function BenchApp({ store, ascii, assumedSize }: BenchAppProps) {
  const state = useSyncExternalStore(store.subscribe, store.getState);
  const { columns, rows } = useTerminalSize(assumedSize);
  const isLinear = useIsScreenReaderEnabled();
  useKeys(store);
  useEffect(() => {
    const timer = setInterval(store.lookAtDisk, DISK_LOOK_MS);
    timer.unref();
    return () => clearInterval(timer);
  }, [store]);
  const { tube, stage } = state.history.place;
  const isShown = shownCandidates(state).length > 0 && (stage === 'tube' || stage === 'answer');
  useEffect(() => {
    if (isShown) store.dispatch({ type: 'ranking-seen', tube });
  }, [store, isShown, tube]);
  return isLinear ? (
    <LinearScreen state={state} ascii={ascii} />
  ) : (
    <BenchScreen state={state} columns={columns} rows={rows} ascii={ascii} />
  );
}

/**
 * Keys as the terminal sent them. Ink's `useInput` loses Enter inside a chunk and dies of keys that it cannot name,
 * so the store's own reader gets the chunks.
 */
function useKeys(store: BenchStore): void {
  const { setRawMode, internal_eventEmitter: emitter } = useStdin();
  useEffect(() => {
    setRawMode(true);
    emitter.on('input', store.input);
    return () => {
      emitter.off('input', store.input);
      setRawMode(false);
    };
  }, [store, setRawMode, emitter]);
}

function useTerminalSize(assumed: TerminalSize = { columns: 80, rows: 24 }): TerminalSize {
  const { stdout } = useStdout();
  const subscribe = useCallback(
    (onResize: () => void) => {
      stdout.on('resize', onResize);
      return () => stdout.off('resize', onResize);
    },
    [stdout],
  );
  const columns = useSyncExternalStore(subscribe, () => stdout.columns || assumed.columns);
  const rows = useSyncExternalStore(subscribe, () => stdout.rows || assumed.rows);
  return { columns, rows };
}
