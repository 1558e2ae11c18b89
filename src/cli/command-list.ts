/** All commands: one place for names, options and help. */
import type { CommandOption, CommandSpec } from './command.ts';

const json: CommandOption = { type: 'boolean', help: 'one JSON object per line instead of text' };
const ascii: CommandOption = { type: 'boolean', help: 'draw the bench screen with plain characters only' };
const calibration: CommandOption = {
  type: 'string',
  value: 'OTHER.json',
  help: "use the known lamp of another record (last week's calibration)",
};

const base: CommandOption = {
  type: 'string',
  value: 'MM',
  help: 'base of the prism that the light fills, for its resolving power',
};

const reveal: CommandOption = {
  type: 'boolean',
  help: "the instructor's word: show the possible tubes though an exercise keeps them back until an answer is written",
};

const plainCommands = () => import('./plain-commands.ts');

/** `whichgas [RECORD]`: what happens without the name of a command. */
export const benchScreen = {
  options: { ascii, json } satisfies Record<string, CommandOption>,
};

export const commands: readonly CommandSpec[] = [
  {
    name: 'demo',
    summary: 'the bench screen on a bundled example; without a terminal, its identification',
    usage: '',
    options: { ascii, json },
    example: 'whichgas demo',
    load: async () => (await plainCommands()).demo,
  },
  {
    name: 'calibrate',
    summary: 'the calibration curve, what each known line says of it, and doubts',
    usage: 'RECORD...',
    options: { base, json },
    example: 'whichgas calibrate bench.json',
    load: async () => (await plainCommands()).calibrate,
  },
  {
    name: 'compare',
    summary: 'two records side by side: has the station changed, and two partners at one tube',
    usage: 'RECORD OTHER',
    options: { reveal, json },
    example: 'whichgas compare bench.json last-week.json',
    load: async () => (await plainCommands()).compare,
  },
  {
    name: 'identify',
    summary: 'wavelengths, possible tubes in order, what fits and what is missing, verdict',
    usage: 'RECORD...',
    options: { calibration, reveal, json },
    example: 'whichgas identify bench.json',
    load: async () => (await plainCommands()).identify,
  },
  {
    name: 'convert',
    summary: 'quick check: a reading to a wavelength, or a wavelength to a reading',
    usage: 'RECORD [READING...]',
    options: {
      to: {
        type: 'string',
        multiple: true,
        value: 'NM|TUBE',
        help: 'the other way: where to look for a wavelength (587.56) or the lines of a tube (helium)',
      },
      calibration,
      reveal,
      json,
    },
    example: `whichgas convert bench.json "228°52'" "229°17'"`,
    load: async () => (await plainCommands()).convert,
  },
  {
    name: 'predict',
    summary: 'crib sheet: the readings at which the lines of a tube should be found',
    usage:
      'RECORD SUBSTANCE... | --glass NAME --apex ANGLE --central READING --least-count ANGLE SUBSTANCE...',
    options: {
      glass: {
        type: 'string',
        value: 'NAME',
        help: 'no record: a prism of this catalogue glass (F2, N-BK7 ...)',
      },
      apex: { type: 'string', value: 'ANGLE', help: 'with --glass: apex angle of the prism' },
      central: { type: 'string', value: 'READING', help: 'with --glass: reading of the central image' },
      'least-count': {
        type: 'string',
        value: 'ANGLE',
        help: "with --glass: least count of the vernier (1')",
      },
      decreasing: { type: 'boolean', help: 'with --glass: readings fall as the deviation grows' },
      bright: { type: 'boolean', help: 'strong and medium lines only' },
      calibration,
      reveal,
      json,
    },
    example: 'whichgas predict bench.json helium',
    load: async () => (await plainCommands()).predict,
  },
  {
    name: 'verify',
    summary: "the instructor's check: do the readings support the expected tube, and what is to blame",
    usage: 'RECORD... --expect NAME | --key KEY.csv',
    options: {
      expect: { type: 'string', value: 'NAME', help: 'the tube that every record should hold' },
      key: { type: 'string', value: 'KEY.csv', help: 'columns record,expected or record,tube,expected' },
      csv: { type: 'boolean', help: 'a table for a gradebook' },
      out: {
        type: 'string',
        short: 'o',
        value: 'FILE.html',
        help: 'also one page: the class as a table, and the readings of each tube against its lines',
      },
      calibration,
      json,
    },
    example: 'whichgas verify class/ --key key.csv',
    load: async () => (await plainCommands()).verify,
  },
  {
    name: 'report',
    summary: 'the lab report as a web page, Markdown or tables',
    usage: 'RECORD --out FILE',
    options: {
      out: { type: 'string', short: 'o', value: 'FILE', help: 'name ending in .html, .md or .csv' },
      base,
      calibration,
      reveal,
      json,
    },
    example: 'whichgas report bench.json --out report.html',
    load: () => import('./commands/report.ts'),
  },
  {
    name: 'import',
    summary: 'a spreadsheet of readings (CSV) made into a bench record',
    usage: 'READINGS.csv --least-count ANGLE',
    options: {
      'least-count': {
        type: 'string',
        value: 'ANGLE',
        help: "least count of the vernier (1'), or scale units",
      },
      method: { type: 'string', value: 'METHOD', help: 'central (default), both-sides or scale' },
      windows: { type: 'string', value: '1|2', help: 'windows read at every setting (default 1)' },
      title: { type: 'string', value: 'TEXT', help: 'title of the record' },
      out: {
        type: 'string',
        short: 'o',
        value: 'FILE.json',
        help: 'file to write; without it, standard output',
      },
      force: { type: 'boolean', help: 'replace a file that is there already' },
      json,
    },
    example: `whichgas import readings.csv --least-count "1'" --out bench.json`,
    load: async () => (await plainCommands()).importReadings,
  },
  {
    name: 'lines',
    summary: 'the line table: all of it, or what a tube, symbol, colour or wavelength finds',
    usage: '[QUERY]',
    options: { json },
    example: 'whichgas lines helium',
    // Loads where each line comes from, which no other plain command tells.
    load: () => import('./commands/lines.ts'),
  },
  {
    name: 'schema',
    summary: 'the JSON Schema of the bench record',
    usage: '',
    options: { json },
    example: 'whichgas schema > record.schema.json',
    load: async () => (await plainCommands()).schema,
  },
];
