/** From the words of the command line to an exit code: the one place for both. */
import { parseArgs } from 'node:util';
import { quoteText } from '../angle/quote-text.ts';
import { safeShortText } from '../present/safe-text.ts';
import type { CommandCall, CommandOption, CommandSpec } from './command.ts';
import { benchScreen, commands } from './command-list.ts';
import { reportFailure } from './fault.ts';
import { commandHelp, programHelp } from './help.ts';
import { hasTerminal, print } from './terminal.ts';
import { type ExitCode, exitCode, shownName, UserError } from './user-error.ts';

export { outputFailed, reportFailure } from './fault.ts';

/** Runs the command that `words` ask for. Never throws. */
export async function run(words: readonly string[]): Promise<ExitCode> {
  try {
    return await dispatch(words);
  } catch (error) {
    return reportFailure(error);
  }
}

async function dispatch(words: readonly string[]): Promise<ExitCode> {
  const at = words.findIndex((word) => word === '-' || !word.startsWith('-'));
  const command = commands.find(({ name }) => name === words[at]);
  if (command !== undefined) return runCommand(command, words.toSpliced(at, 1));

  const call = parse(words, benchScreen.options, '');
  if (await toldAbout(call, programHelp)) return exitCode.done;
  const [record = null] = call.words;
  if (record === null) return openBenchScreen(null, call);
  if (!record.toLowerCase().endsWith('.json')) throw await unknownWord(record);
  if (call.words.length > 1) {
    throw new UserError(
      `the bench screen takes one record; for several: whichgas identify ${shownName(record)} ...`,
    );
  }
  return openBenchScreen(record, call);
}

async function runCommand(command: CommandSpec, words: readonly string[]): Promise<ExitCode> {
  const call = parse(words, command.options, command.name);
  if (await toldAbout(call, () => commandHelp(command))) return exitCode.done;
  return (await command.load()).run(call);
}

/** Prints the help or the version; false where the call asks for neither. */
async function toldAbout({ options }: CommandCall, helpText: () => string): Promise<boolean> {
  if (options.help === true) print(helpText());
  else if (options.version === true) {
    const { default: description } = await import('../../package.json', { with: { type: 'json' } });
    print(description.version);
  } else return false;
  return true;
}

async function openBenchScreen(record: string | null, call: CommandCall): Promise<ExitCode> {
  if (hasTerminal() && call.options.json !== true) {
    const { startBenchScreen } = await import('../tui/start.tsx');
    const ascii = call.options.ascii === true;
    return (await startBenchScreen({ recordPath: record, demo: false, ascii })) as ExitCode;
  }
  if (record === null) {
    throw new UserError(
      'the bench screen needs a terminal; here, name a record: whichgas identify bench.json (whichgas --help lists all commands)',
    );
  }
  const { identify } = await import('./plain-commands.ts');
  return identify.run({ words: [record], options: call.options });
}

async function unknownWord(word: string): Promise<UserError> {
  if (word === '-') return new UserError('"-" (standard input) needs a command: whichgas identify -');
  const { closestNames } = await import('./plain-commands.ts');
  const names = commands.map(({ name }) => name);
  const [closest] = closestNames(word, names);
  const cure = closest === undefined ? 'whichgas --help lists the commands' : `did you mean "${closest}"?`;
  return new UserError(
    `${quoteText(word)} is neither a command nor a record (a record ends in .json); ${cure}`,
  );
}

function parse(
  words: readonly string[],
  options: Readonly<Record<string, CommandOption>>,
  commandName: string,
): CommandCall {
  const known = {
    ...options,
    help: { type: 'boolean', short: 'h' },
    version: { type: 'boolean' },
  } as const;
  try {
    // What else an option has, its help, is none of the parser's.
    const args = words.map(markedIfNegative);
    const { values, positionals } = parseArgs({ args, options: known, allowPositionals: true });
    const asTyped = Object.entries(values).map(([name, value]) => [
      name,
      Array.isArray(value) ? value.map(unmarked) : unmarked(value),
    ]);
    return { words: positionals.map(unmarked), options: Object.fromEntries(asTyped) };
  } catch (error) {
    const reason = error instanceof Error ? (error.message.split(/[.?]\s/)[0] ?? '') : String(error);
    throw new UserError(
      `${safeShortText(reason, 160)}; see whichgas ${commandName === '' ? '' : `${commandName} `}--help`,
    );
  }
}

/** Put before a word, it keeps `parseArgs` from taking the word for options. No typed word can hold it. */
const mark = '\0';

/** No option begins with a digit: `-3` is a number, such as a reading on a scale. */
function markedIfNegative(word: string): string {
  return /^-[.,]?\d/.test(word) ? mark + word : word;
}

function unmarked<Value>(value: Value): Value | string {
  return typeof value === 'string' && value.startsWith(mark) ? value.slice(mark.length) : value;
}
