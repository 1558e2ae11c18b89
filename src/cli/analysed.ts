/** The way every record takes in a command: file, bench, analysis. */
import { analyseBench } from '../analysis/analyse.ts';
import type { Analysis } from '../analysis/types.ts';
import type { Bench } from '../record/bench.ts';
import { type CommandCall, textOption } from './command.ts';
import { recordFiles } from './files.ts';
import { type LoadedBench, loadBench } from './load-bench.ts';
import { complain, hideProgress, showProgress } from './terminal.ts';
import { type ExitCode, exitCode, UserError } from './user-error.ts';

export interface AnalysedRecord extends Omit<LoadedBench, 'bench'> {
  /** Holds the bench too. */
  readonly analysis: Analysis;
}

/** The bench whose known lamp is to be used instead, when `--calibration` names one. */
export async function otherCalibration(call: CommandCall): Promise<Bench | null> {
  const file = textOption(call, 'calibration');
  return file === null ? null : (await loadBench(file)).bench;
}

/** Reads and analyses one record; `prepare` may change the bench before that. */
export async function analyseRecord(
  file: string,
  calibrationFrom: Bench | null,
  prepare: (bench: Bench) => Bench = (bench) => bench,
): Promise<AnalysedRecord> {
  const { bench, ...loaded } = await loadBench(file, calibrationFrom);
  if (calibrationFrom !== null && (calibrationFrom.method === 'scale') !== (bench.method === 'scale')) {
    throw new UserError(
      `${file}: cannot use that calibration: one of the two has a divided circle, the other a scale`,
    );
  }
  const analysis = analyseBench(prepare(bench), calibrationFrom === null ? {} : { calibrationFrom });
  return { ...loaded, analysis };
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
export function needsRecord(commandName: string): UserError {
  return new UserError(`${commandName} needs a record: a file ending in .json, or "-" for standard input`);
}

/** Every record of the list in turn. One that cannot be used is listed on standard error and the rest is done. */
export async function forEachRecord(
  call: CommandCall,
  commandName: string,
  work: (file: string) => Promise<void>,
): Promise<ExitCode> {
  if (call.words.length === 0) throw needsRecord(commandName);
  let code: ExitCode = exitCode.done;
  const attempt = async <Value>(step: () => Promise<Value>): Promise<Value | null> => {
    try {
      return await step();
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      for (const sentence of error.sentences) complain(sentence);
      code = exitCode.unusable;
      return null;
    }
  };
  const files: string[] = [];
  for (const word of call.words) files.push(...((await attempt(() => recordFiles(word))) ?? []));
  for (const [done, file] of files.entries()) {
    showProgress(done, files.length, file);
    await attempt(() => work(file));
  }
  hideProgress();
  return code;
}
