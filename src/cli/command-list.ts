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

const asScale: CommandOption = {
  type: 'boolean',
  help: 'readings of a circle taken as those of a scale: no central image, or a grating',
};

const reveal: CommandOption = {
  type: 'boolean',
  help: "the instructor's word: show the possible tubes though an exercise keeps them back until an answer is written",
};

const plainCommands = () => import('./plain-commands.ts');
const tableCommands = () => import('./table-commands.ts');

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
    options: { base, 'as-scale': asScale, json },
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
    options: { calibration, 'as-scale': asScale, reveal, json },
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
    remarks:
      'Each reading is one argument: "229°17\'", two windows "229 17 / 49 17", both sides "left 229 17 right 132 51".',
    example: `whichgas convert bench.json "228°52'" "229°17'"`,
    load: async () => (await plainCommands()).convert,
  },
  {
    name: 'predict',
    summary: 'crib sheet: the readings at which the lines of a tube should be found',
    usage:
      'RECORD SUBSTANCE... | RECORD --advise [LAMP...] | --glass NAME --apex ANGLE --central READING --least-count ANGLE SUBSTANCE...',
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
      advise: {
        type: 'boolean',
        help: 'which known lamp, and which of its lines, would make the wavelengths of the tubes on the shelf surest (the usual lamps, or those named)',
      },
      calibration,
      reveal: {
        type: 'boolean',
        help: 'changes nothing here: only the tubes that are asked for are named, in an exercise too',
      },
      json,
    },
    example: 'whichgas predict bench.json helium',
    load: async () => (await plainCommands()).predict,
  },
  {
    name: 'station',
    summary: 'an exercise prepared: records with the ranking kept back, sheets to print, answers',
    usage: '--lamp NAME --least-count ANGLE --out FILE.json | STATIONS.csv --out FOLDER',
    remarks:
      'STATIONS.csv has one row a station. Its columns are station (needed), record (name of the file, station-3.json without it), title, date, method, least count, windows, lamp, tube, shelf, expected (what is in the tubes), prism, apex, glass, central, calibration; what a cell leaves open is as the flags say. A calibration is looked for in the folder of the table. Several tubes, or names, stand in one cell, separated by commas or semicolons. The same table is a key for verify.',
    options: {
      out: { type: 'string', short: 'o', value: 'FILE.json|FOLDER', help: 'where the records go' },
      sheet: {
        type: 'string',
        value: 'FILE.html',
        help: 'also sheets to print, for pairs without a computer',
      },
      answers: {
        type: 'string',
        value: 'FILE.html',
        help: "also the instructor's page: what is in the tubes and where its lines are found",
      },
      key: {
        type: 'string',
        value: 'KEY.csv',
        help: 'for the answers: what is in the tubes, a key as verify takes it',
      },
      station: { type: 'string', value: 'TEXT', help: 'name or number of the station' },
      title: { type: 'string', value: 'TEXT', help: 'title of the record' },
      date: { type: 'string', value: 'TEXT', help: 'day of the exercise' },
      method: { type: 'string', value: 'METHOD', help: 'central (default), both-sides or scale' },
      'least-count': {
        type: 'string',
        value: 'ANGLE',
        help: "least count of the vernier (1'), or scale units",
      },
      windows: { type: 'string', value: '1|2', help: 'windows read at every setting (default 1)' },
      lamp: { type: 'string', value: 'NAME', help: 'the known lamp, such as mercury' },
      tube: { type: 'string', value: 'LABELS', help: 'labels of the unknown tubes: "tube C" or "C, D"' },
      shelf: {
        type: 'string',
        value: 'NAMES',
        help: 'the tubes that it can be: "helium, neon, argon"; any without it',
      },
      expect: { type: 'string', value: 'NAMES', help: 'for the answers: what is in the tubes' },
      prism: { type: 'string', value: 'TEXT', help: 'name of the prism' },
      apex: { type: 'string', value: 'ANGLE', help: 'apex angle of the prism' },
      glass: {
        type: 'string',
        value: 'NAME',
        help: 'for expected places: its catalogue glass (F2 ...), with the apex angle',
      },
      central: { type: 'string', value: 'READING', help: 'with a glass: reading of the central image' },
      calibration: {
        type: 'string',
        value: 'OTHER.json',
        help: 'for expected places: a record with the known lamp read on this station before',
      },
      force: { type: 'boolean', help: 'replace files, but no record on which anybody has worked' },
      json,
    },
    example: 'whichgas station stations.csv --out lab --sheet sheets.html --answers answers.html',
    load: async () => (await tableCommands()).station,
  },
  {
    name: 'verify',
    summary: "the instructor's check: do the readings support the expected tube, and what is to blame",
    usage: 'RECORD... --expect NAME | --key KEY.csv',
    options: {
      expect: { type: 'string', value: 'NAME', help: 'the tube that every record should hold' },
      key: {
        type: 'string',
        value: 'KEY.csv',
        help: 'columns record,expected or record,tube,expected; or the table of stations',
      },
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
    load: async () => (await tableCommands()).verify,
  },
  {
    name: 'report',
    summary: 'the lab report as a web page, Markdown or tables',
    usage: 'RECORD --out FILE',
    options: {
      out: { type: 'string', short: 'o', value: 'FILE', help: 'name ending in .html, .md or .csv' },
      base,
      calibration,
      'as-scale': asScale,
      reveal,
      json,
    },
    example: 'whichgas report bench.json --out report.html',
    load: async () => (await plainCommands()).report,
  },
  {
    name: 'import',
    summary: 'a spreadsheet of readings (CSV) made into a bench record',
    usage: 'READINGS.csv --least-count ANGLE | READINGS.csv --station STATION.json',
    options: {
      station: {
        type: 'string',
        value: 'STATION.json',
        help: 'the prepared record that the readings belong to: instrument, shelf and title are its; --out may name it too, to fill it',
      },
      'least-count': {
        type: 'string',
        value: 'ANGLE',
        help: "least count of the vernier (1'), or scale units",
      },
      method: { type: 'string', value: 'METHOD', help: 'central (default), both-sides or scale' },
      windows: { type: 'string', value: '1|2', help: 'windows read at every setting (default 1)' },
      title: { type: 'string', value: 'TEXT', help: 'title of the record' },
      decimals: {
        type: 'string',
        value: 'degrees|minutes',
        help: 'what 229.17 means on a circle with minutes, where the table does not tell',
      },
      observers: { type: 'string', value: 'NAMES', help: 'who read, separated by commas' },
      date: { type: 'string', value: 'TEXT', help: 'day of the readings' },
      out: {
        type: 'string',
        short: 'o',
        value: 'FILE.json',
        help: 'file to write; without it, standard output',
      },
      force: { type: 'boolean', help: 'replace a file that is there already' },
      json,
    },
    remarks:
      'READINGS.csv has one row a line, in columns lamp, tube, wavelength, color, brightness, reading, reading 2 (and so on, for repeats), left and right (for both sides), note, answer; a row belongs to a lamp or to a tube, and "central" there marks the central image.',
    example: `whichgas import readings.csv --least-count "1'" --out bench.json`,
    load: async () => (await tableCommands()).importReadings,
  },
  {
    name: 'lines',
    summary: 'the line table: all of it, or what a tube, symbol, colour or wavelength finds',
    usage: '[QUERY]',
    options: { json },
    remarks:
      'With --json, brightnessLn is the natural logarithm of how bright a line looks by all that is known of it, and brightness that number in a word: strong above -0.65, medium above -1.95, weak above -3.25. prominence is the same logarithm as chances are worked out with, where grades from memory count for more; prominenceSd is the standard deviation of both.',
    example: 'whichgas lines helium',
    load: async () => (await tableCommands()).lines,
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
