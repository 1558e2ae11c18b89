/** The way every record takes in a command: file, bench, analysis. */
import { analyseBench } from '../analysis/analyse.ts';
import { withDecimalsTold } from '../analysis/decimals-meant.ts';
import { withRankingHeldBack } from '../analysis/exercise.ts';
import type { Analysis } from '../analysis/types.ts';
import type { Bench } from '../record/bench.ts';
import { type CommandCall, switchOption, textOption } from './command.ts';
import { reportFailure } from './fault.ts';
import { type LoadedBench, loadBench } from './load-bench.ts';
import { recordFiles } from './record-files.ts';
import { complain, hideProgress, showProgress } from './terminal.ts';
import { type ExitCode, exitCode, shownName, UserError } from './user-error.ts';

export interface AnalysedRecord extends Omit<LoadedBench, 'bench'> {
  /** As the record has it, before `prepare`. */
  readonly recorded: Bench;
  /** Holds the bench as it was analysed. */
  readonly analysis: Analysis;
}

/** The bench whose known lamp is to be used instead, when `--calibration` names one; `--as-scale` is about it too. */
export async function otherCalibration(call: CommandCall): Promise<Bench | null> {
  const file = textOption(call, 'calibration');
  return file === null ? null : (await loadBench(file, null, switchOption(call, 'as-scale'))).bench;
}

/** Reads and analyses one record; `prepare` may change the bench before that. `isAsScale`: its circle is a scale. */
export async function analyseRecord(
  file: string,
  calibrationFrom: Bench | null,
  isAsScale = false,
  prepare: (bench: Bench) => Bench = (bench) => bench,
): Promise<AnalysedRecord> {
  const { bench, ...loaded } = await loadBench(file, calibrationFrom, isAsScale);
  if (calibrationFrom !== null && (calibrationFrom.method === 'scale') !== (bench.method === 'scale')) {
    throw new UserError(
      `${shownName(file)}: cannot use that calibration: one of the two has a divided circle, the other a scale`,
    );
  }
  const analysis = analyseBench(prepare(bench), calibrationFrom === null ? {} : { calibrationFrom });
  return { ...loaded, recorded: bench, analysis: withDecimalsTold(analysis, loaded.warnings) };
}

/** What may be shown of it: an exercise keeps its ranking back, unless the instructor says `--reveal`. */
export function shownAnalysis(call: CommandCall, { analysis }: Pick<AnalysedRecord, 'analysis'>): Analysis {
  return switchOption(call, 'reveal') ? analysis : withRankingHeldBack(analysis);
}

/** The sentences about a record, each with its name. */
export function complainOf(file: string, ...sentences: readonly (string | null)[]): void {
  for (const sentence of sentences) if (sentence !== null) complain(`${shownName(file)}: ${sentence}`);
}

/** The bench on which places are to be found: its central image is the calibration's where it has none of its own. */
export function benchToReadOn(bench: Bench, calibrationFrom: Bench | null): Bench {
  if (calibrationFrom === null || bench.central.length > 0) return bench;
  return { ...bench, central: calibrationFrom.central };
}

/** The one record that a command works on. */
export function onlyRecord(call: CommandCall, commandName: string): string {
  const [file] = call.words;
  if (file === undefined) throw needsRecord(commandName);
  return file;
}

/** The sentence for a command that was given nothing to work on. */
function needsRecord(commandName: string): UserError {
  return new UserError(`${commandName} needs a record: a file ending in .json, or "-" for standard input`);
}

/** The records that the words of a call name, and whether each of the words could be used. */
export interface NamedRecords {
  readonly files: readonly string[];
  readonly code: ExitCode;
}

/** Files, folders and patterns of a call; one that cannot be used is listed on standard error. */
export async function namedRecords(call: CommandCall, commandName: string): Promise<NamedRecords> {
  if (call.words.length === 0) throw needsRecord(commandName);
  const files: string[] = [];
  let code: ExitCode = exitCode.done;
  for (const word of call.words) {
    try {
      files.push(...(await recordFiles(word)));
    } catch (error) {
      code = worse(code, reportFailure(error, word));
    }
  }
  return { files, code };
}

/**
 * Every record in turn. The trouble of one is its own, be it the file's or a fault of the program: it is listed on
 * standard error and the rest is done. The exit code is that of the worst.
 */
export async function forEachRecord(
  { files, code: before }: NamedRecords,
  work: (file: string) => Promise<void>,
): Promise<ExitCode> {
  let code = before;
  for (const [done, file] of files.entries()) {
    showProgress(done, files.length, file);
    try {
      await work(file);
    } catch (error) {
      code = worse(code, reportFailure(error, file));
    }
  }
  hideProgress();
  return code;
}

/** A fault of the program is worse than a file that cannot be used, and that is worse than a result. */
const worse = (one: ExitCode, other: ExitCode): ExitCode => (one > other ? one : other);
