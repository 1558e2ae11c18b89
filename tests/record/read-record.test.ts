import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bench, Warning } from '../../src/record/bench.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { readableText } from '../../src/record/readable-text.ts';
import type { BenchRecord } from '../../src/record/schema.ts';
import { formatRecord } from '../../src/record/write-record.ts';
import { sample, sampleWith } from './sample-record.ts';

function read(text: string): { bench: Bench; warnings: readonly Warning[] } {
  const result = readRecord(text);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result;
}
const codes = (text: string) => read(text).warnings.map(({ code }) => code);

describe('a record becomes a bench', () => {
  it('with every field in its place', () => {
    const { bench, warnings } = read(sampleWith());
    expect(warnings).toEqual([]);
    expect(bench).toMatchObject({
      title: 'Bench 2, afternoon',
      method: 'central',
      leastCount: 1,
      scaleDivisionArcmin: 30,
      windows: 1,
      prism: 'each-line',
      setAtNm: null,
      apexAngle: { valueDeg: 60, uDeg: 2 / 60 },
      ranking: 'always',
      about: { date: '2026-11-25', observers: ['A', 'B'], station: '2' },
    });
    expect(bench.central).toEqual([
      { kind: 'one-side', windows: [181 + 4 / 60] },
      { kind: 'one-side', windows: [181 + 5 / 60] },
    ]);
    expect(bench.known).toHaveLength(1);
    expect(bench.known[0]).toMatchObject({ name: 'mercury', substances: ['mercury'] });
    expect(bench.known[0]!.lines[2]).toMatchObject({
      index: 2,
      lampIndex: 0,
      statedWavelengthNm: null,
      confirmed: false,
      use: true,
      colour: 'yellow',
      texts: ["229°20'", "229°21'"],
    });
    expect(bench.tubes[0]).toMatchObject({
      label: 'tube C',
      shelf: ['helium', 'neon', 'argon'],
      answer: { text: 'neon', substance: 'neon' },
      complete: false,
      notSeen: [
        { kind: 'reading', text: "231°26'" },
        { kind: 'wavelength', wavelengthNm: 447.1 },
      ],
    });
  });

  it('counts known lines through all lamps, unknown lines within their tube', () => {
    const lines = [{ readings: ['1°'] }, { readings: ['2°'] }];
    const { bench } = read(
      sampleWith([['known'], [{ lines }, { lamp: 'HgCd', lines }]], [['unknown'], [{ lines }, { lines }]]),
    );
    expect(bench.known.flatMap((lamp) => lamp.lines.map(({ index }) => index))).toEqual([0, 1, 2, 3]);
    expect(bench.known[1]!.substances).toEqual(['mercury', 'cadmium']);
    expect(bench.tubes.map((tube) => tube.lines.map(({ index }) => index))).toEqual([
      [0, 1],
      [0, 1],
    ]);
    expect(bench.tubes.map(({ label }) => label)).toEqual(['tube 1', 'tube 2']);
  });

  it('from the little that is required', () => {
    const { bench } = read('{"whichgas":1,"instrument":{"method":"central","leastCount":"5\'"}}');
    expect(bench).toMatchObject({
      leastCount: 5,
      scaleDivisionArcmin: 60,
      known: [],
      tubes: [],
      central: [],
    });
  });

  it('with two windows, both sides and a central check', () => {
    const pair = ["231°04'", "51°05'"];
    const { bench } = read(
      sampleWith(
        [['instrument', 'method'], 'both-sides'],
        [['instrument', 'windows'], 2],
        [['central'], [pair]],
        [['known', 'lines'], [{ readings: [{ left: pair, right: ["131°04'", "311°05'"] }] }]],
        [['unknown'], []],
      ),
    );
    expect(bench.central[0]).toMatchObject({ kind: 'one-side' });
    expect(bench.known[0]!.lines[0]!.settings[0]).toEqual({
      kind: 'both-sides',
      left: [231 + 4 / 60, 51 + 5 / 60],
      right: [131 + 4 / 60, 311 + 5 / 60],
    });
    expect(bench.known[0]!.lines[0]!.texts).toEqual(["left 231°04' / 51°05' right 131°04' / 311°05'"]);
  });

  it('on a scale', () => {
    const { bench } = read(
      '{"whichgas":1,"instrument":{"method":"scale","leastCount":0.1},"known":{"lines":[{"readings":[-3.2,12]}]}}',
    );
    expect(bench).toMatchObject({
      method: 'scale',
      leastCount: 0.1,
      scaleDivisionArcmin: null,
      apexAngle: null,
    });
    expect(
      bench.known[0]!.lines[0]!.settings.map((setting) => setting.kind === 'one-side' && setting.windows),
    ).toEqual([[-3.2], [12]]);
  });

  it('with the prism angle from two reflected images, whose uncertainty is left to the bench', () => {
    const { bench } = read(
      sampleWith([['instrument', 'apexAngle'], { readings: { left: "300°10'", right: "60°12'" } }]),
    );
    expect(bench.apexAngle?.valueDeg).toBeCloseTo(60 + 1 / 60, 9);
    expect(bench.apexAngle).toMatchObject({
      uDeg: null,
      images: [{ kind: 'one-side' }, { kind: 'one-side' }],
    });
  });

  it('with shelf, answer and ranking at the top for every tube, its own before it', () => {
    const { bench } = read(
      sampleWith(
        [['shelf'], ['krypton']],
        [['answer'], 'Kr'],
        [['answerBeforeRanking'], true],
        [['unknown'], [{ shelf: ['neon'], answer: 'Ne' }, {}]],
        [['ranking'], 'after-answer'],
      ),
    );
    expect(bench.tubes.map(({ shelf }) => shelf)).toEqual([['neon'], ['krypton']]);
    expect(bench.tubes.map(({ answer }) => answer?.substance)).toEqual(['neon', 'krypton']);
    expect(bench.tubes.map(({ answerBeforeRanking }) => answerBeforeRanking)).toEqual([true, true]);
    expect(bench.ranking).toBe('after-answer');
  });

  it('with re-read lines from the top and from the lamp', () => {
    const check = [{ wavelengthNm: 546.07, readings: ["229°40'"] }];
    const { bench } = read(sampleWith([['check'], check], [['known', 'check'], check]));
    expect(bench.check.map(({ wavelengthNm, texts }) => [wavelengthNm, ...texts])).toEqual([
      [546.07, "229°40'"],
      [546.07, "229°40'"],
    ]);
  });

  it('the same with a BOM and CRLF', () => {
    expect(read(`\ufeff${sampleWith().replaceAll('\n', '\r\n')}`)).toEqual(read(sampleWith()));
  });

  it('leaves the prototype of objects alone', () => {
    readRecord(sampleWith().replace('"title"', '"__proto__": { "polluted": true }, "title"'));
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  });
});

describe('what is odd is a warning', () => {
  const readings = ['known', 'lines', 0, 'readings'] as const;
  it.each<[string, string, string[]]>([
    ['finer than the least count', sampleWith([readings, ["229°39.5'"]]), ['finer-than-least-count']],
    ['a plain number may be finer', sampleWith([readings, [229.6543]]), []],
    ['seconds for minutes', sampleWith([readings, ['229°39"']]), ['seconds-for-minutes']],
    ['past the full circle', sampleWith([readings, [-10.5]]), ['outside-circle']],
    ['repeats far apart', sampleWith([readings, ["229°39'", "230°09'"]]), ['repeats-disagree']],
    ['repeats on both sides of zero', sampleWith([readings, ["359°59'", "0°01'"]]), []],
    ['unknown colour', sampleWith([['known', 'lines', 0, 'color'], 'greeny']), ['unknown-colour']],
    ['British spelling', sampleWith([['known', 'lines', 0, 'colour'], 'green']), []],
    [
      'answer off the shelf',
      sampleWith([['unknown', 'answer'], 'xenon'], [['unknown', 'shelf'], ['neon']]),
      ['answer-off-shelf'],
    ],
    ['answer on the shelf', sampleWith([['unknown', 'answer'], 'Ne'], [['unknown', 'shelf'], ['neon']]), []],
    ['unknown answer', sampleWith([['unknown', 'answer'], 'unobtainium']), ['unknown-answer']],
    ['set line without a fixed prism', sampleWith([['instrument', 'setAtNm'], 589.3]), ['set-at-ignored']],
    ['odd division', sampleWith([['instrument', 'scaleDivision'], '30\'30"']), ['scale-division-unusual']],
  ])('%s', (_name, text, expected) => {
    expect(codes(text)).toEqual(expected);
  });

  it('says of repeats on both sides of the central image where they belong', () => {
    const oneSided = read(sampleWith([readings, ["229°39'", "249°39'"]])).warnings[0]!.message;
    expect(oneSided).toContain('on a vernier with steps of');
    const centred = read(sampleWith([['central'], ["181°04'"]], [readings, ["229°39'", "132°29'"]]));
    expect(centred.warnings[0]!.message).toMatch(/97°10' apart, on both sides .* "method": "both-sides"/);
  });

  it('names the place', () => {
    expect(read(sampleWith([readings, ['229°39"']])).warnings).toEqual([
      {
        code: 'seconds-for-minutes',
        message: `known.lines[0].readings[0]: 229°39" has seconds and no minutes; did you mean 229°39'?`,
      },
    ]);
  });

  it('is gathered where there is much of a kind', () => {
    const lines = Array(40).fill({ readings: ["229°39.5'"] });
    const { warnings } = read(sampleWith([['known', 'lines'], lines]));
    expect(warnings).toHaveLength(1);
    expect(warnings[0]!.message).toMatch(/^known\.lines\[0\]\.readings\[0\]: .*; and 39 more like this$/);
  });
});

describe('any text and any JSON', () => {
  const isSound = (text: string) => {
    const result = readRecord(text);
    if (result.ok) return;
    expect(result.problems.length).toBeGreaterThan(0);
    for (const { place, message } of result.problems) {
      expect(`${place}${message}`).not.toMatch(/\p{Cc}/u);
      expect(message).not.toMatch(/undefined|\[object|Invalid input/);
    }
  };

  it('gives a record or problems in words', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary' }), isSound), { numRuns: 500 });
    fc.assert(fc.property(fc.json(), isSound), { numRuns: 500 });
  });

  it('also for a sound record with something put anywhere into it', () => {
    const places: (string | number)[][] = [];
    const collect = (value: unknown, path: (string | number)[]) => {
      if (path.length > 0) places.push(path);
      if (typeof value !== 'object' || value === null) return;
      for (const [key, entry] of Object.entries(value)) {
        collect(entry, [...path, Array.isArray(value) ? Number(key) : key]);
      }
    };
    collect(sample, []);
    const oddValue = fc.oneof(
      fc.jsonValue(),
      fc.constantFrom<unknown>(undefined, null, '', [], {}, -1, 1e308, "1'", ['1°', '2°'], {
        left: 1,
        right: '2°',
      }),
    );
    fc.assert(
      fc.property(fc.constantFrom(...places), oddValue, (path, value) => isSound(sampleWith([path, value]))),
      { numRuns: 600 },
    );
  });
});

describe('a record written', () => {
  it('is read again as it was, in any shape', () => {
    const reading = fc.constantFrom<unknown>("229°39'", '229 39', 229.65, '231.5+28');
    const line = fc.record(
      {
        readings: fc.array(reading, { minLength: 1, maxLength: 3 }),
        color: fc.constantFrom('red', 'grün', 'odd'),
        brightness: fc.constantFrom('strong', 'weak'),
        note: fc.string({ unit: 'grapheme' }),
        use: fc.boolean(),
      },
      { requiredKeys: ['readings'] },
    );
    const lamps = fc.array(
      fc.record({ lamp: fc.constantFrom('Hg', 'helium'), lines: fc.array(line) }, { requiredKeys: [] }),
    );
    fc.assert(
      fc.property(lamps, lamps, fc.string({ unit: 'grapheme' }), (known, unknown, title) => {
        const text = sampleWith(
          [['title'], title],
          [['known'], known],
          [['unknown'], unknown.map(({ lines }) => ({ ...(lines ? { lines } : {}), label: title }))],
        );
        const first = readRecord(text);
        if (!first.ok) throw new Error(JSON.stringify(first.problems));
        const written = formatRecord(first.record);
        const second = readRecord(written);
        expect(second.ok && second.record).toEqual(first.record);
        expect(formatRecord(second.ok ? second.record : first.record)).toBe(written);
        expect(written).not.toContain('\r');
        expect(written.endsWith('}\n')).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  it.each([94, 95, 96, 97, 108, 109, 110, 111, 112, 150])('keeps texts of %i characters', (length) => {
    for (const letter of ['n', '"', 'ü', '\\', '\u0007', '\ud800', '𝛌']) {
      const text = letter.repeat(length);
      const read = readRecord(
        sampleWith([['title'], text], [['unknown', 'label'], text], [['unknown', 'lines', 0, 'note'], text]),
      );
      if (!read.ok) throw new Error(JSON.stringify(read.problems));
      const written = readableText(read.record);
      if (!written.ok) throw new Error(JSON.stringify(written.problems));
      const again = readRecord(written.text);
      expect(again.ok && again.record).toEqual(read.record);
    }
  });

  it('is not given out where the reader would refuse it or read something else', () => {
    const read = readRecord(sampleWith());
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const spoilt: readonly [Partial<BenchRecord>, string, RegExp][] = [
      [{ central: [Number.NaN] }, 'central[0]', /must be/],
      [{ central: ["181°75'"] }, 'central[0]', /75 minutes/],
      [{ unknown: [{ lines: [], shelf: ['heluim'] }] }, 'unknown.shelf[0]', /no tube/],
      [{ instrument: { method: 'scale', leastCount: "1'" } }, 'instrument.leastCount', /plain number/],
      [{ titel: 'x' } as Partial<BenchRecord>, '', /unknown key/],
      [
        { unknown: [{ lines: [{ readings: ['1°'], colour: 'red' }] }] } as unknown as BenchRecord,
        '',
        /another record/,
      ],
    ];
    for (const [parts, place, message] of spoilt) {
      const written = readableText({ ...read.record, ...parts });
      const problems = written.ok ? [] : written.problems;
      expect(problems).toContainEqual({ place, message: expect.stringMatching(message) });
    }
  });

  it('has its keys in order and short things on one line', () => {
    const { about, whichgas, ...rest } = sample;
    const result = readRecord(JSON.stringify({ about, ...rest, whichgas }));
    expect(result.ok && formatRecord(result.record)).toMatchInlineSnapshot(`
      "{
        "whichgas": 1,
        "title": "Bench 2, afternoon",
        "instrument": {
          "method": "central",
          "leastCount": "1'",
          "scaleDivision": "30'",
          "windows": 1,
          "prism": "each-line",
          "apexAngle": {"value": "60°00'", "u": "2'"}
        },
        "central": ["181°04'", "181°05'"],
        "known": {
          "lamp": "mercury",
          "lines": [
            {"wavelengthNm": 546.07, "readings": ["229°39'"]},
            {"wavelengthNm": 435.83, "readings": ["231°26'"]},
            {"readings": ["229°20'", "229°21'"], "color": "yellow"}
          ]
        },
        "unknown": {
          "label": "tube C",
          "central": ["181°04'"],
          "lines": [
            {"readings": ["228°52'"], "color": "red", "brightness": "strong", "note": "sharp"},
            {"readings": ["229°17'"], "color": "yellow", "brightness": "strong"}
          ],
          "notSeen": [{"reading": "231°26'"}, {"wavelengthNm": 447.1}],
          "complete": false,
          "shelf": ["helium", "Ne", "argon"],
          "answer": "neon"
        },
        "about": {"date": "2026-11-25", "observers": ["A", "B"], "station": "2"}
      }
      "
    `);
  });
});
