/** All commands: one place for names, options and help. */
import type { CommandOption, CommandSpec } from './command.ts';

const flag = (help: string): CommandOption => ({ type: 'boolean', help });
/** `value`: its name in the help. */
const named = (value: string, help: string): CommandOption => ({ type: 'string', value, help });

const json = flag('one JSON object per line instead of text');
const ascii = flag('draw the bench screen with plain characters only');
const calibration = named('OTHER.json', "use the known lamp of another record (last week's calibration)");

const tube = named(
  'LABEL',
  "count from the central image of this tube (that of the only tube, else the record's)",
);

const base = named('MM', 'base of the prism that the light fills, for its resolving power');

const asScale = flag('readings of a circle taken as those of a scale: no central image, or a grating');

const reveal = flag(
  "the instructor's word: show the possible tubes though an exercise keeps them back until an answer is written",
);

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
        ...named(
          'NM|TUBE',
          'the other way: where to look for a wavelength (587.56) or the lines of a tube (helium)',
        ),
        multiple: true,
      },
      tube,
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
      glass: named('NAME', 'no record: a prism of this catalogue glass (F2, N-BK7 ...)'),
      apex: named('ANGLE', 'with --glass: apex angle of the prism'),
      central: named('READING', 'with --glass: reading of the central image'),
      'least-count': named('ANGLE', "with --glass: least count of the vernier (1')"),
      decreasing: flag('with --glass: readings fall as the deviation grows'),
      bright: flag('strong and medium lines only'),
      advise: flag(
        'which known lamp, and which of its lines, would make the wavelengths of the tubes on the shelf surest (the usual lamps, or those named)',
      ),
      tube,
      calibration,
      reveal: flag('changes nothing here: only the tubes that are asked for are named, in an exercise too'),
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
      out: { ...named('FILE.json|FOLDER', 'where the records go'), short: 'o' },
      sheet: named('FILE.html', 'also sheets to print, for pairs without a computer'),
      answers: named(
        'FILE.html',
        "also the instructor's page: what is in the tubes and where its lines are found",
      ),
      key: named('KEY.csv', 'for the answers: what is in the tubes, a key as verify takes it'),
      station: named('TEXT', 'name or number of the station'),
      title: named('TEXT', 'title of the record'),
      date: named('TEXT', 'day of the exercise'),
      method: named('METHOD', 'central (default), both-sides or scale'),
      'least-count': named('ANGLE', "least count of the vernier (1'), or scale units"),
      windows: named('1|2', 'windows read at every setting (default 1)'),
      lamp: named('NAME', 'the known lamp, such as mercury'),
      tube: named('LABELS', 'labels of the unknown tubes: "tube C" or "C, D"'),
      shelf: named('NAMES', 'the tubes that it can be: "helium, neon, argon"; any without it'),
      expect: named('NAMES', 'for the answers: what is in the tubes'),
      prism: named('TEXT', 'name of the prism'),
      apex: named('ANGLE', 'apex angle of the prism'),
      glass: named('NAME', 'for expected places: its catalogue glass (F2 ...), with the apex angle'),
      central: named('READING', 'with a glass: reading of the central image'),
      calibration: named(
        'OTHER.json',
        'for expected places: a record with the known lamp read on this station before',
      ),
      force: flag('replace files, but no record on which anybody has worked'),
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
      expect: named('NAME', 'the tube that every record should hold'),
      key: named('KEY.csv', 'columns record,expected or record,tube,expected; or the table of stations'),
      csv: flag('a table for a gradebook'),
      out: {
        ...named(
          'FILE.html',
          'also one page: the class as a table, and the readings of each tube against its lines',
        ),
        short: 'o',
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
      out: { ...named('FILE', 'name ending in .html, .md or .csv'), short: 'o' },
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
      station: named(
        'STATION.json',
        'the prepared record that the readings belong to: instrument, shelf and title are its; --out may name it too, to fill it',
      ),
      'least-count': named('ANGLE', "least count of the vernier (1'), or scale units"),
      method: named('METHOD', 'central (default), both-sides or scale'),
      windows: named('1|2', 'windows read at every setting (default 1)'),
      title: named('TEXT', 'title of the record'),
      decimals: named(
        'degrees|minutes',
        'what 229.17 means on a circle with minutes, where the table does not tell',
      ),
      observers: named('NAMES', 'who read, separated by commas'),
      date: named('TEXT', 'day of the readings'),
      out: { ...named('FILE.json', 'file to write; without it, standard output'), short: 'o' },
      force: flag('replace a file that is there already'),
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
