import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exampleFile, examplesFolder, jsonLines, whichgas, withFiles } from './run-program.ts';

const clear = exampleFile('harbour-lane-bench-2.json');

describe('exit code 2: a file or an argument cannot be used', () => {
  it.each([
    ['a word that is no command', ['identfy'], /did you mean "identify"/],
    ['a word that is nothing like one', ['xyzzy'], /whichgas --help lists the commands/],
    ['a number that is no command', ['-3'], /"-3" is neither a command nor a record/],
    ['standard input for the bench screen', ['-'], /whichgas identify -/],
    ['no argument and no terminal', [], /needs a terminal/],
    ['two records for the bench screen', ['a.json', 'b.json'], /takes one record/],
    [
      'an option that does not exist',
      ['identify', '--frobnicate', 'a.json'],
      /Unknown option '--frobnicate'/,
    ],
    [
      'an option whose value is the next option',
      ['verify', clear, '--expect', '--json'],
      /^whichgas: [^.?]*ambiguous; see whichgas verify --help\n$/,
    ],
    ['an option without its value', ['report', clear, '--out'], /--out/],
    ['no record', ['identify'], /needs a record/],
    ['a missing file', ['identify', 'no-such.json'], /no-such\.json: .*no such file/],
    ['a missing file, without a command', ['no-such.json'], /no-such\.json: .*no such file/],
    ['a folder where a file is needed', ['compare', clear, examplesFolder], /folder/],
    ['a folder without records', ['identify', 'tests/cli'], /no record in this folder/],
    ['an empty name', ['identify', ''], /empty file name/],
    ['a tube that is misspelt', ['verify', clear, '--expect', 'heluim'], /did you mean helium/],
    ['a tube that is misspelt, in predict', ['predict', clear, 'xenonn'], /did you mean xenon/],
    ['neither --expect nor --key', ['verify', clear], /either --expect NAME or --key/],
    ['both --json and --csv', ['verify', clear, '--expect', 'neon', '--json', '--csv'], /not both/],
    [
      'advice from a glass',
      ['predict', '--advise', '--glass', 'F2', 'He'],
      /--advise and --glass do not go together/,
    ],
    ['advice with an angle', ['predict', clear, '--advise', '--apex', '60'], /--apex belongs to --glass/],
    ['advice on a lamp misspelt', ['predict', clear, '--advise', 'heluim'], /did you mean helium/],
    ['no tube to predict', ['predict', clear], /at least one tube/],
    ['no reading to convert', ['convert', clear], /needs a reading/],
    ['a negative angle for a reading', ['convert', clear, '-3'], /"-3" is negative/],
    ['a negative wavelength', ['convert', clear, '--to', '-3'], /between 200 and 1200/],
    ...['486.13', '587,56 nm', '656nm'].map((text): [string, string[], RegExp] => [
      `a wavelength for a reading: ${text}`,
      ['convert', clear, text],
      /is no reading of this bench; for the wavelength of [\d.,]+ nm write --to [\d.,]+\n$/,
    ]),
    ['an impossible reading', ['convert', clear, "229°79'"], /79 minutes/],
    ['a wavelength out of this world', ['convert', clear, '--to', '5'], /between 200 and 1200/],
    ['a report without a name', ['report', clear], /--out/],
    ['a report in a format that is none', ['report', clear, '--out', 'x.docx'], /\.html, \.md or \.csv/],
    [
      'a report in a folder that is missing',
      ['report', clear, '--out', 'no/such/x.md'],
      /no\/such\/x\.md: .*no such folder/,
    ],
    ['a query that finds nothing', ['lines', 'unobtainium'], /nothing in the line table/],
    ['a wavelength that no line is near', ['lines', '9999'], /nothing in the line table/],
    ...['0', '-4', '4 cm', '1001', '1e2'].map((mm): [string, string[], RegExp] => [
      `--base ${mm}`,
      ['calibrate', `--base=${mm}`, clear],
      /^whichgas: --base .*: the base of the prism is its length in mm, such as 40\n$/,
    ]),
    ['a glass without its angles', ['predict', '--glass', 'F2', 'helium'], /--least-count/],
    [
      'a glass that is not listed',
      ['predict', '--glass', 'F22', '--apex', '60', '--central', '0', '--least-count', "1'", 'He'],
      /catalogue/,
    ],
    [
      'an impossible prism',
      ['predict', '--glass', 'F2', '--apex', '100', '--central', '0', '--least-count', "1'", 'He'],
      /light does not pass/,
    ],
    ...(
      [
        ['--apex', '0', /^whichgas: --apex: 0° is not the angle of a prism/],
        ['--apex', '9', /--apex: 9 is too thin/],
        ['--apex', '120', /--apex: 120° is not the angle of a prism/],
        ['--apex', '-60', /--apex: /],
        ['--apex', '0x3c', /--apex: /],
        ['--apex', '1e2', /--apex: /],
        ['--central', '-1', /^whichgas: --central: /],
        ['--central', '361', /^whichgas: --central: /],
        ['--central', 'Infinity', /^whichgas: --central: /],
        ['--least-count', "0'", /^whichgas: --least-count: /],
        ['--least-count', '1', /^whichgas: --least-count: .*degrees, minutes or seconds/],
        ['--least-count', '11°', /^whichgas: --least-count: /],
      ] as const
    ).map(([flag, value, sentence]): [string, string[], RegExp] => {
      const flags = { '--apex': '60', '--central': '0', '--least-count': "1'", [flag]: value };
      return [
        `${flag} ${value}`,
        ['predict', '--glass', 'F2', ...Object.entries(flags).flat(), 'He'],
        sentence,
      ];
    }),
    ...['0x222', '1e3', '5_0', '546.07.1'].map((nm): [string, string[], RegExp] => [
      `--to ${nm}`,
      ['convert', clear, '--to', nm],
      /^whichgas: --to .*: not a decimal number; a wavelength is written 546\.07\n$/,
    ]),
  ])('%s', (_what, args, sentence) => {
    const { code, out, err } = whichgas(args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(sentence);
    expect(err).toMatch(/^(whichgas: .+\n)+$/);
    expect(err).not.toMatch(/ at .*:\d+:\d+/);
  });

  it.each([
    ['not JSON', '{'],
    ['nothing', ''],
    ['a list', '[]'],
    ['an unknown key', '{"whichgas":1,"titel":"x","instrument":{"method":"central","leastCount":"1\'"}}'],
    ['Latin-1', Uint8Array.from(Buffer.from('{"title":"Röhre"}', 'latin1'))],
    ['a file of a later version', '{"whichgas":2,"instrument":{"method":"central","leastCount":"1\'"}}'],
    [
      'lines without a central reading',
      '{"whichgas":1,"instrument":{"method":"central","leastCount":"1\'"},"known":{"lamp":"Hg","lines":[{"wavelengthNm":546.07,"readings":[229.6]}]}}',
    ],
    ['20,000 levels', '['.repeat(20_000)],
  ])('a record that is %s', (_what, stdin) => {
    const { code, out, err } = whichgas(['identify', '-'], { stdin });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^(whichgas: standard input: .+\n)+$/);
  });

  it('one bad file is listed and the others are done', () =>
    withFiles({ 'bad.json': '{' }, (cwd) => {
      const ended = whichgas(['identify', '--json', 'bad.json', clear, 'missing.json', clear], { cwd });
      expect(ended.code).toBe(2);
      expect(jsonLines(ended)).toHaveLength(2);
      expect(ended.err).toMatch(/bad\.json/);
      expect(ended.err).toMatch(/missing\.json/);
    }));

  it('wins over 1', () =>
    withFiles({ 'bad.json': '{' }, (cwd) => {
      expect(whichgas(['verify', '--expect', 'argon', clear], { cwd }).code).toBe(1);
      expect(whichgas(['verify', '--expect', 'argon', clear, 'bad.json'], { cwd }).code).toBe(2);
    }));
});

describe('a word of several kilobytes', () => {
  const long = 'wrong'.repeat(1000);

  it.each([
    [[long]],
    [['a.json', `${long}.json`]],
    [[`--${long}`]],
    [['identify', `--${long}`]],
    [['identify', `${long}.json`]],
    [['identify', `${long}*.json`]],
    [['identify', `no/${long}/a.json`]],
    [['identify', clear, '--calibration', `${long}.json`]],
    [['compare', clear, long]],
    [['verify', clear, '--expect', long]],
    [['verify', clear, '--key', long]],
    [['verify', clear, '--expect', 'neon', '--out', long]],
    [['convert', clear, long]],
    [['convert', clear, '--to', long]],
    [['convert', clear, '--to', `1${long}`]],
    [['predict', clear, long]],
    [['predict', '--glass', long, '--apex', '60', '--central', '0', '--least-count', "1'", 'He']],
    [['predict', '--glass', 'F2', '--apex', long, '--central', '0', '--least-count', "1'", 'He']],
    [
      [
        'predict',
        '--glass',
        'F2',
        '--apex',
        `100.${'0'.repeat(3000)}`,
        '--central',
        '0',
        '--least-count',
        "1'",
      ],
    ],
    [['report', clear, '--out', long]],
    [['report', clear, '--out', `${long}.md`]],
    [['report', clear, long]],
    [['import', '-', '--least-count', long]],
    [['import', '-', '--least-count', "1'", '--method', long]],
    [['import', '-', '--least-count', "1'", '--windows', long]],
    [['import', '-', '--least-count', "1'", '--out', long]],
    [['import', 'a.csv', long, '--least-count', "1'"]],
    [['lines', long]],
    [['schema', long]],
    [['demo', long]],
  ])('is not repeated whole: %#', (words) => {
    const { code, out, err } = whichgas(words, { stdin: `lamp,reading\nHg,229°40'\n` });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err.length).toBeGreaterThan(20);
    expect(err.length).toBeLessThan(500);
    expect(err).toMatch(/^(whichgas: .+\n)+$/);
  });
});

describe('without a terminal', () => {
  it('a record prints what identify prints, with or without --json', () => {
    for (const flags of [[], ['--json']]) {
      const screen = whichgas([...flags, clear]);
      expect(screen.code).toBe(0);
      expect(screen).toEqual(whichgas(['identify', ...flags, clear]));
    }
  });

  it('demo prints the identification of the bundled example', () => {
    const demo = whichgas(['demo']);
    const identify = whichgas(['identify', '-'], { stdin: readFileSync(clear) });
    expect(demo.code).toBe(0);
    expect(demo.out.split('\n').slice(1)).toEqual(identify.out.split('\n').slice(1));
  });
});
