/** What every command of the program is made of. */
import type { ExitCode } from './user-error.ts';

/** One option as `parseArgs` needs it and as `--help` shows it. */
export interface CommandOption {
  readonly type: 'string' | 'boolean';
  readonly short?: string;
  readonly multiple?: boolean;
  /** The value's name in the help text: `OTHER.json`. */
  readonly value?: string;
  readonly help: string;
}

/** Values after parsing: text options as text, switches as true, repeatable ones as a list. */
export type OptionValues = Readonly<
  Record<string, string | boolean | readonly (string | boolean)[] | undefined>
>;

export interface CommandCall {
  readonly words: readonly string[];
  readonly options: OptionValues;
}

export interface CommandSpec {
  readonly name: string;
  /** What it does, in one line. */
  readonly summary: string;
  /** What follows the name: `RECORD READING...`. */
  readonly usage: string;
  readonly options: Readonly<Record<string, CommandOption>>;
  /** What options alone do not tell, for the end of the help. */
  readonly remarks?: string;
  /** A whole command line that works. */
  readonly example: string;
  /** Loaded only when the command is called, so that no command waits for the parts of another. */
  readonly load: () => Promise<{ readonly run: (call: CommandCall) => Promise<ExitCode> }>;
}

/** The text of an option, or null when it was not given. */
export function textOption(call: CommandCall, name: string): string | null {
  const value = call.options[name];
  return typeof value === 'string' ? value : null;
}

/** True when the switch was given. */
export function switchOption(call: CommandCall, name: string): boolean {
  return call.options[name] === true;
}
