/** The texts of `--help`. */
import { wrapText } from '../present/text-table.ts';
import type { CommandOption, CommandSpec } from './command.ts';
import { benchScreen, commands } from './command-list.ts';

const everywhere: Readonly<Record<string, CommandOption>> = {
  help: { type: 'boolean', short: 'h', help: 'this text' },
  version: { type: 'boolean', help: 'the version of the program' },
};

export function programHelp(): string {
  return [
    'whichgas names the gas in an unlabelled discharge tube from prism-spectrometer\nreadings, and says how sure it is.',
    'Usage\n  whichgas [RECORD.json]       the bench screen on a new or existing record\n  whichgas COMMAND ...',
    `Commands\n${twoColumns(commands.map(({ name, summary }) => [name, summary]))}`,
    `Options\n${optionList({ ...benchScreen.options, ...everywhere })}`,
    'Example\n  whichgas identify bench.json',
    wrapText(
      'RECORD is a bench record (a JSON file), "-" is standard input; calibrate, identify and verify take folders too. ' +
        'Exit codes: 0 done; 1 verify found a record not supported; 2 a file or argument cannot be used; ' +
        '3 a fault of the program. "whichgas COMMAND --help" tells more.',
    ),
  ].join('\n\n');
}

export function commandHelp(command: CommandSpec): string {
  return [
    wrapText(`whichgas ${command.name}: ${command.summary}`, '  '),
    `Usage\n  ${wrapText(`whichgas ${command.name} ${command.usage}`.trimEnd(), '    ', 76)}`,
    `Options\n${optionList({ ...command.options, ...everywhere })}`,
    ...(command.remarks === undefined ? [] : [wrapText(command.remarks)]),
    `Example\n  ${wrapText(command.example, '    ', 78)}`,
  ].join('\n\n');
}

function optionList(options: Readonly<Record<string, CommandOption>>): string {
  return twoColumns(
    Object.entries(options).map(([name, option]) => [
      `--${name}${option.value === undefined ? '' : ` ${option.value}`}${option.short === undefined ? '' : `, -${option.short}`}`,
      option.help,
    ]),
  );
}

function twoColumns(rows: readonly (readonly [string, string])[]): string {
  const width = Math.max(...rows.map(([left]) => left.length)) + 2;
  return rows
    .map(([left, right]) => `  ${wrapText(`${left.padEnd(width)}${right}`, ' '.repeat(width + 2), 78)}`)
    .join('\n');
}
