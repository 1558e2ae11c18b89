/** Valid records of benches that could be, and of some that could not: any instrument, any tubes, any faults. */
import fc from 'fast-check';
import { formatAngle } from '../../src/angle/format-angle.ts';
import { tubes } from '../../src/lines/table.ts';
import { cataloguePrism, minimumDeviationArcmin } from '../score/prism.ts';

type Plain = Record<string, unknown>;

const glassNames = ['N-BK7', 'F2', 'SF10', 'N-SF11'] as const;
const tubeNames = tubes.map(({ substance }) => substance);
const someNames = fc.uniqueArray(fc.constantFrom(...tubeNames), { minLength: 1, maxLength: 5 });

const instrument = fc.record({
  method: fc.constantFrom('central' as const, 'both-sides' as const, 'scale' as const),
  leastCountArcmin: fc.constantFrom(0.5, 1, 2, 5, 6),
  windows: fc.constantFrom(1 as const, 2 as const),
  prism: fc.constantFrom('each-line' as const, 'fixed' as const),
  glass: fc.constantFrom(...glassNames),
  centralDeg: fc.double({ min: 0, max: 359.9, noNaN: true }),
  side: fc.constantFrom(1 as const, -1 as const),
  apex: fc.constantFrom<unknown>(undefined, "60°00'", { value: "60°00'", u: "2'" }, 60),
  asNumbers: fc.boolean(),
});
type Instrument = typeof instrument extends fc.Arbitrary<infer Value> ? Value : never;

/** What stands behind a line: the line itself, by how much each reading of it is off, and what is written beside it. */
const line = fc.record({
  pick: fc.double({ min: 0, max: 1, noNaN: true }),
  /** Minutes of arc, scatter mostly, a slip now and then. */
  offs: fc.array(
    fc.oneof(
      { weight: 60, arbitrary: fc.double({ min: -1, max: 1, noNaN: true }) },
      { weight: 1, arbitrary: fc.constantFrom(-600, -60, -30, 10, 30, 60, 1800) },
    ),
    { minLength: 1, maxLength: 3 },
  ),
  words: fc.record(
    {
      color: fc.constantFrom('red', 'grün', 'violet', 'blue-green', 'muddy', ''),
      brightness: fc.constantFrom('strong', 'medium', 'weak'),
      note: fc.string({ maxLength: 12 }),
      use: fc.boolean(),
    },
    { requiredKeys: [] },
  ),
  stated: fc.oneof(
    { weight: 12, arbitrary: fc.constant('right') },
    { weight: 1, arbitrary: fc.constantFrom('none', 'neighbour') },
  ),
  confirmed: fc.option(fc.boolean(), { nil: undefined, freq: 6 }),
});
type Line = typeof line extends fc.Arbitrary<infer Value> ? Value : never;

const group = (least: number, most: number) =>
  fc.record({
    tube: fc.constantFrom(...tubes),
    lines: fc.array(line, { minLength: least, maxLength: most }),
  });

const tube = fc.record({
  source: group(0, 25),
  movedArcmin: fc.option(fc.integer({ min: -20, max: 20 }), { nil: undefined }),
  notSeen: fc.array(
    fc.oneof(
      fc.double({ min: 380, max: 780, noNaN: true }).map((wavelengthNm) => ({ wavelengthNm })),
      fc.record({ readingOf: fc.double({ min: 380, max: 780, noNaN: true }) }),
    ),
    { maxLength: 3 },
  ),
  rest: fc.record(
    {
      label: fc.string({ maxLength: 12 }),
      complete: fc.boolean(),
      shelf: someNames,
      answer: fc.oneof(fc.constantFrom(...tubeNames), fc.string({ maxLength: 8 })),
      answerBeforeRanking: fc.boolean(),
      ranking: fc.constantFrom('always', 'after-answer'),
    },
    { requiredKeys: [] },
  ),
});

/** Writes readings as this instrument shows them. */
class Writer {
  readonly #of: Instrument;
  readonly #windows: 1 | 2;

  constructor(of: Instrument) {
    this.#of = of;
    this.#windows = of.method === 'scale' ? 1 : of.windows;
  }

  get header(): Plain {
    const { method, leastCountArcmin, prism, apex } = this.#of;
    if (method === 'scale') return { method, leastCount: leastCountArcmin / 10, prism };
    const text = leastCountArcmin < 1 ? `${leastCountArcmin * 60}"` : `${leastCountArcmin}'`;
    const leastCount = leastCountArcmin === 6 ? '0.1°' : text;
    return {
      method,
      leastCount,
      windows: this.#windows,
      prism,
      ...(apex === undefined ? {} : { apexAngle: apex }),
    };
  }

  reading(wavelengthNm: number, offArcmin: number): unknown {
    const { method, glass, centralDeg, side } = this.#of;
    const deviationArcmin = minimumDeviationArcmin(cataloguePrism(glass, 60), wavelengthNm) + offArcmin;
    if (method === 'scale') return Math.round(deviationArcmin) / 10;
    if (method === 'central') return this.#place(centralDeg + (side * deviationArcmin) / 60);
    return {
      left: this.#place(centralDeg + deviationArcmin / 60),
      right: this.#place(centralDeg - minimumDeviationArcmin(cataloguePrism(glass, 60), wavelengthNm) / 60),
    };
  }

  central(movedArcmin = 0): unknown {
    return this.#place(this.#of.centralDeg + movedArcmin / 60);
  }

  #place(directionDeg: number): unknown {
    const first = this.#written(directionDeg);
    return this.#windows === 1 ? first : [first, this.#written(directionDeg + 180)];
  }

  #written(directionDeg: number): unknown {
    const { leastCountArcmin, asNumbers } = this.#of;
    const counts = Math.round((directionDeg * 60) / leastCountArcmin);
    const degrees = ((((counts * leastCountArcmin) / 60) % 360) + 360) % 360;
    return asNumbers ? degrees : formatAngle(degrees, leastCountArcmin);
  }
}

/** Records that the program must take, as JSON values. */
export const validRecord = fc
  .record({
    of: instrument,
    lamps: fc.oneof(
      { weight: 4, arbitrary: fc.array(group(5, 14), { minLength: 1, maxLength: 2 }) },
      { weight: 1, arbitrary: fc.array(group(0, 4), { maxLength: 3 }) },
    ),
    unknown: fc.array(tube, { minLength: 0, maxLength: 3 }),
    centralRepeats: fc.integer({ min: 1, max: 3 }),
    check: fc.array(line, { maxLength: 2 }),
    top: fc.record(
      { title: fc.string({ maxLength: 30 }), shelf: someNames, answer: fc.constantFrom(...tubeNames) },
      { requiredKeys: [] },
    ),
  })
  .map(({ of, lamps, unknown, centralRepeats, check, top }): Plain => {
    const writer = new Writer(of);
    const visible = (source: (typeof tubes)[number]) => {
      const nms = source.lines
        .filter(({ wavelengthNm: nm, prominence }) => nm > 390 && nm < 760 && prominence > -2.5)
        .map(({ wavelengthNm }) => wavelengthNm);
      return nms.length === 0 ? [589.3] : nms;
    };
    const nmOf = (source: (typeof tubes)[number], pick: number, further = 0): number => {
      const nms = visible(source);
      return nms[Math.min(nms.length - 1, Math.floor(pick * nms.length) + further)]!;
    };
    const readings = (source: (typeof tubes)[number], { pick, offs }: Line) =>
      offs.map((off) => writer.reading(nmOf(source, pick), off));
    const stated = (source: (typeof tubes)[number], { stated: how, pick, confirmed }: Line): Plain => ({
      ...(how === 'none'
        ? {}
        : { wavelengthNm: Number(nmOf(source, pick, how === 'right' ? 0 : 1).toFixed(2)) }),
      ...(confirmed === undefined ? {} : { confirmed }),
    });
    return {
      whichgas: 1,
      ...top,
      instrument: writer.header,
      ...(of.method === 'scale'
        ? {}
        : { central: Array.from({ length: centralRepeats }, (_, i) => writer.central(i * 0.5)) }),
      known: lamps.map(({ tube: source, lines }) => ({
        lamp: source.substance,
        lines: lines.map((each) => ({
          ...stated(source, each),
          ...each.words,
          readings: readings(source, each),
        })),
      })),
      unknown: unknown.map(({ source: { tube: source, lines }, movedArcmin, notSeen, rest }) => ({
        ...rest,
        ...(movedArcmin === undefined || of.method === 'scale'
          ? {}
          : { central: [writer.central(movedArcmin)] }),
        lines: lines.map((each) => ({ ...each.words, readings: readings(source, each) })),
        notSeen: notSeen.map((place) =>
          'wavelengthNm' in place ? place : { reading: writer.reading(place.readingOf, 0) },
        ),
      })),
      check: check.map((each) => ({
        wavelengthNm: nmOf(tubes[0]!, each.pick),
        readings: readings(tubes[0]!, each),
      })),
    };
  });

const onScale = fc.oneof(
  fc.constantFrom(0, -1e6, 1e6, 1e6 - 1e-6, 1e-300, -1e-300, 0.1, 12.3),
  fc.double({ min: -1e6, max: 1e6, noNaN: true }),
);
const onCircle = fc.oneof(
  fc.constantFrom<unknown>(-360, 0, 1e-300, 180, 360, 720, "0°00'", "359°59'", "181°04'", `0°0'0.000001"`),
  fc.double({ min: -360, max: 720, noNaN: true }),
);
const extremeNm = fc.oneof(
  fc.constantFrom(200, 200.0001, 546.07, 546.0700001, 1199.9999, 1200),
  fc.double({ min: 200, max: 1200, noNaN: true }),
);

/** Records that the program must take although no bench gives them: every number on its bound, or anywhere between. */
export const extremeRecord = fc
  .oneof(
    fc.record({ method: fc.constant('scale'), leastCount: fc.constantFrom(0.000001, 0.1, 10_000) }),
    fc.record(
      {
        method: fc.constant('central'),
        leastCount: fc.constantFrom('0.01"', "1'", '10°'),
        scaleDivision: fc.constant('10°'),
        prism: fc.constantFrom('each-line', 'fixed'),
        setAtNm: extremeNm,
        apexAngle: fc.record({
          value: fc.constantFrom(5, 60, 119.999),
          u: fc.constantFrom(0, 0.000003, 10),
        }),
      },
      { requiredKeys: ['method', 'leastCount'] },
    ),
  )
  .chain((instrument): fc.Arbitrary<Plain> => {
    const reading = instrument.method === 'scale' ? onScale : onCircle;
    const readings = fc.array(reading, { minLength: 1, maxLength: 3 });
    const central = instrument.method === 'scale' ? {} : { central: readings };
    return fc.record({
      whichgas: fc.constant(1),
      instrument: fc.constant(instrument),
      ...central,
      known: fc.record({
        lamp: fc.constantFrom('mercury', 'helium', ''),
        lines: fc.array(fc.record({ wavelengthNm: extremeNm, readings }, { requiredKeys: ['readings'] }), {
          maxLength: 8,
        }),
        check: fc.array(fc.record({ wavelengthNm: extremeNm, readings }), { maxLength: 2 }),
      }),
      unknown: fc.record({
        ...central,
        lines: fc.array(fc.record({ readings }), { maxLength: 8 }),
        notSeen: fc.array(fc.oneof(fc.record({ wavelengthNm: extremeNm }), fc.record({ reading })), {
          maxLength: 3,
        }),
      }),
    });
  });
