/** Every refusal of a record in one place: the change that makes it wrong, the place named, and the sentence. */
import { describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';
import { sampleWith } from './sample-record.ts';

const problems = (text: string): string[] => {
  const result = readRecord(text);
  return result.ok ? [] : result.problems.map(({ place, message }) => `${place}: ${message}`);
};

const line0 = ['known', 'lines', 0] as const;
const pairNeeded = 'with two windows a reading is a pair: [A, B], typed A / B';

describe('a record is refused with the place and what would be right', () => {
  it.each<[string, string, string[]]>([
    ['newer form', sampleWith([['whichgas'], 2]), ['whichgas: must be 1, not 2']],
    ['no instrument', sampleWith([['instrument'], undefined]), ['instrument: is missing']],
    [
      'no least count',
      sampleWith([['instrument', 'leastCount'], undefined]),
      ['instrument.leastCount: is missing'],
    ],
    [
      'unknown method',
      sampleWith([['instrument', 'method'], 'centrl']),
      ['instrument.method: must be "central", "both-sides" or "scale", not "centrl"'],
    ],
    [
      'least count without a unit',
      sampleWith([['instrument', 'leastCount'], 1]),
      [
        `instrument.leastCount: 1 does not say whether it is degrees, minutes or seconds; write for instance 1' or 30" or 0.01°`,
      ],
    ],
    [
      'scale division below the least count',
      sampleWith([['instrument', 'scaleDivision'], '30"']),
      [
        `instrument.scaleDivision: is smaller than the least count (1'); it is the distance of two marks of the main scale, such as 30'`,
      ],
    ],
    ['three windows', sampleWith([['instrument', 'windows'], 3]), ['instrument.windows: must be 1 or 2']],
    [
      'no prism angle',
      sampleWith([['instrument', 'apexAngle'], '0°']),
      ['instrument.apexAngle: 0° is not the angle of a prism, which is mostly near 60°'],
    ],
    [
      'unknown key',
      sampleWith([[...line0, 'colr'], 'red']),
      ['known.lines[0]: unknown key "colr"; did you mean "color"?'],
    ],
    [
      'unknown key that only chances to be inside a long one',
      sampleWith([['instrument', 'foo'], 1]),
      [
        'instrument: unknown key "foo"; here there can be method, leastCount, scaleDivision, windows, prism, setAtNm, apexAngle',
      ],
    ],
    [
      'impossible minutes',
      sampleWith([[...line0, 'readings'], ["229°75'"]]),
      ["known.lines[0].readings[0]: 229°75' has 75 minutes; minutes go from 0 to 59"],
    ],
    [
      'no reading at all',
      sampleWith([
        [...line0, 'readings'],
        ["229°39'", 'same'],
      ]),
      [`known.lines[0].readings[1]: "same" is not an angle; write for instance 232°41'`],
    ],
    [
      'no readings',
      sampleWith([[...line0, 'readings'], []]),
      ['known.lines[0].readings: must have at least 1 entry'],
    ],
    [
      'readings not a list',
      sampleWith([[...line0, 'readings'], "229°39'"]),
      [`known.lines[0].readings: must be a list [ ... ], not "229°39'"`],
    ],
    [
      'a reading that is null',
      sampleWith([[...line0, 'readings'], [null]]),
      [
        'known.lines[0].readings[0]: must be a text in quotation marks, a number, a pair [ ... , ... ] or an object { ... }',
      ],
    ],
    [
      'a pair on one window',
      sampleWith([[...line0, 'readings'], [['1°', '181°']]]),
      ['known.lines[0].readings[0]: a pair of readings needs an instrument with "windows": 2'],
    ],
    [
      'two sides with the central method',
      sampleWith([[...line0, 'readings'], [{ left: '1°', right: '2°' }]]),
      ['known.lines[0].readings[0]: a left and a right reading belong to the method "both-sides" only'],
    ],
    [
      'a number that is no direction',
      sampleWith([[...line0, 'readings'], [7200]]),
      ['known.lines[0].readings[0]: 7200° is not on a circle, which goes from 0° to 360°'],
    ],
    [
      'wavelength in ångström',
      sampleWith([[...line0, 'wavelengthNm'], 5460.7]),
      [
        'known.lines[0].wavelengthNm: must be 1200 or less, not 5460.7: in ångström? In nanometres that is 546.07',
      ],
    ],
    [
      'wavelength in µm',
      sampleWith([[...line0, 'wavelengthNm'], 0.546]),
      ['known.lines[0].wavelengthNm: must be 200 or more, not 0.546: in µm? In nanometres that is 546'],
    ],
    [
      'wavelength as text',
      sampleWith([[...line0, 'wavelengthNm'], '546.07']),
      ['known.lines[0].wavelengthNm: must be a number, not "546.07"'],
    ],
    [
      'brightness',
      sampleWith([['unknown', 'lines', 0, 'brightness'], 'faint']),
      ['unknown.lines[0].brightness: must be "strong", "medium" or "weak", not "faint"'],
    ],
    [
      'a place neither reading nor wavelength',
      sampleWith([['unknown', 'notSeen'], [{}]]),
      ['unknown.notSeen[0]: must have either a "reading" or a "wavelengthNm"'],
    ],
    [
      'misspelt shelf',
      sampleWith([['unknown', 'shelf', 0], 'heluim']),
      ['unknown.shelf[0]: "heluim" is no tube that the program knows; did you mean helium?'],
    ],
    ['known is a number', sampleWith([['known'], 5]), ['known: must be an object { ... } or a list [ ... ]']],
    [
      'the second lamp of a list',
      sampleWith([['known'], [{ lamp: 'Hg' }, { lamp: 'He', lines: [{ readings: ['x'] }] }]]),
      [`known[1].lines[0].readings[0]: "x" is not an angle; write for instance 232°41'`],
    ],
    [
      'too many lines',
      sampleWith([['known', 'lines'], Array(501).fill({ readings: ['1°'] })]),
      ['known.lines: must have at most 200 entries, not 501'],
    ],
    [
      'too many lines in all',
      sampleWith([['known'], Array(2).fill({ lamp: 'Hg', lines: Array(101).fill({ readings: ['1°'] }) })]),
      ['known: has 202 lines in all; a record takes at most 200: the others belong in a record of their own'],
    ],
    [
      'too many repeats in all',
      sampleWith([['unknown'], { lines: Array(121).fill({ readings: Array(100).fill('1°') }) }]),
      [
        'unknown: has 12100 readings in all; a record takes at most 12000: the others belong in a record of their own',
      ],
    ],
    [
      'too many tubes',
      sampleWith([['unknown'], Array(21).fill({ lines: [] })]),
      ['unknown: must have at most 20 entries, not 21'],
    ],
    [
      'a misspelt shelf that no tube stands on',
      sampleWith([['shelf'], ['heluim']]),
      ['shelf[0]: "heluim" is no tube that the program knows; did you mean helium?'],
    ],
    [
      'blanks without end',
      `${sampleWith()}${' '.repeat(100_001)}`,
      [': it has more than 100000 blanks in a row; a bench record has few'],
    ],
    [
      'hostile key',
      sampleWith().replace('"title"', '"__proto__": { "polluted": true }, "title"'),
      [
        ': unknown key "__proto__"; here there can be whichgas, title, instrument, central, known, unknown, check, shelf, answer, ranking, answerBeforeRanking, about',
      ],
    ],
    [
      'two windows and single readings',
      sampleWith(
        [['instrument', 'windows'], 2],
        [['central'], []],
        [['known', 'lines'], [{ readings: ['1°'] }]],
        [['unknown'], []],
      ),
      [`known.lines[0].readings[0]: ${pairNeeded}`],
    ],
    [
      'both sides and single readings',
      sampleWith(
        [['instrument', 'method'], 'both-sides'],
        [['known'], []],
        [['unknown', 'lines'], []],
        [['unknown', 'notSeen'], [{ reading: '1°' }]],
      ),
      [
        'unknown.notSeen[0].reading: the method "both-sides" needs a left and a right reading: { "left": ..., "right": ... }',
      ],
    ],
    [
      'angles on a scale',
      sampleWith(
        [['instrument'], { method: 'scale', leastCount: 0.1, windows: 2, apexAngle: '60°' }],
        [
          ['known', 'lines'],
          [{ readings: ['1°'] }, { readings: [12.3] }],
        ],
        [['unknown', 'lines'], []],
        [['unknown', 'notSeen'], []],
      ),
      [
        'central: a central reading cannot be with the method "scale", which has no angles',
        'unknown.central: a central reading cannot be with the method "scale", which has no angles',
        'instrument.apexAngle: an apex angle cannot be with the method "scale", which has no angles',
        'instrument.windows: two windows cannot be with the method "scale", which has no angles',
        'known.lines[0].readings[0]: 1° must be a plain number: on a scale there are no angles',
      ],
    ],
    [
      'a least count in minutes on a scale',
      sampleWith(
        [['instrument'], { method: 'scale', leastCount: "1'" }],
        [['central'], []],
        [['known'], []],
        [['unknown'], []],
      ),
      [
        `instrument.leastCount: 1' must be a plain number of scale units, such as 0.1, with the method "scale"`,
      ],
    ],
    [
      'a least count of nothing on a scale',
      sampleWith(
        [['instrument'], { method: 'scale', leastCount: 0 }],
        [['central'], []],
        [['known'], []],
        [['unknown'], []],
      ),
      ['instrument.leastCount: must be a step from 0.000001 to 10000 scale units, not 0'],
    ],
    [
      'several faults at once, of shape and of meaning',
      sampleWith([['titel'], 'x'], [[...line0, 'readings'], ["229°75'"]], [['unknown', 'shelf'], ['heluim']]),
      [
        ': unknown key "titel"; did you mean "title"?',
        "known.lines[0].readings[0]: 229°75' has 75 minutes; minutes go from 0 to 59",
        'unknown.shelf[0]: "heluim" is no tube that the program knows; did you mean helium?',
      ],
    ],
  ])('%s', (_name, text, expected) => {
    expect(problems(text)).toEqual(expected);
  });
});

it('a misspelt lamp is refused with the names that come near', () => {
  expect(problems(sampleWith([['known', 'lamp'], 'heluim']))).toEqual([
    expect.stringMatching(
      /^known\.lamp: "heluim" is no lamp that the program knows; did you mean helium\b.*\?$/,
    ),
  ]);
});

describe('text that is no JSON is refused with line and column', () => {
  it.each<[string, string, string[]]>([
    ['nothing', ' \n', [': the file is empty; a bench record is a JSON object { ... }']],
    ['a list', '[]', [': must be an object { ... }, not a list']],
    ['words', 'hello', ['line 1, column 1: "hello" is no word of JSON; texts need double quotation marks']],
    [
      'not closed',
      '{\n"whichgas": 1',
      ['line 2, column 14: a closing } is expected here, but the file ends'],
    ],
    [
      'comma too many',
      '{"whichgas": 1,\n}',
      ['line 2, column 1: a key in double quotation marks is expected here, not "}"'],
    ],
    [
      'comma missing',
      '{"whichgas": 1\n"title": ""}',
      ['line 2, column 1: a comma is expected here, not "title"'],
    ],
    ['comment', '{ // note\n}', ['line 1, column 3: JSON has no comments, not "// note"']],
    [
      'not a number',
      '{"whichgas": NaN}',
      ['line 1, column 14: "NaN" is no word of JSON; texts need double quotation marks'],
    ],
    [
      'key twice',
      sampleWith().replace('"lamp": "mercury",', '"lamp": "mercury", "lamp": "helium",'),
      ['known.lamp: stands twice in the same object (line 20); keep one'],
    ],
    [
      'nested without end',
      '['.repeat(200_000),
      [': it has more than 32 lists and objects inside each other'],
    ],
    [
      'too large',
      `"${'x'.repeat(17 * 1024 * 1024)}"`,
      [': it is larger than 16 MiB; a bench record is far smaller'],
    ],
  ])('%s', (_name, text, expected) => {
    expect(problems(text)).toEqual(expected);
  });
});
