/** Records of any shape, to the bounds of the format and one step beyond: what is written of them, not what they mean. */
import fc from 'fast-check';
import { most } from '../../src/record/limits.ts';
import type { BenchRecord } from '../../src/record/schema.ts';
import { textOf } from './hostile-text.ts';

const oneOf = fc.constantFrom;

type Instrument = BenchRecord['instrument'];

/** `beyond`: how often, in forty, a value lies one step outside of its bound. */
function records(beyond: number): fc.Arbitrary<BenchRecord> {
  const mostly = <Value>(within: fc.Arbitrary<Value>, outside: fc.Arbitrary<Value>) =>
    fc.oneof({ weight: 40, arbitrary: within }, { weight: beyond, arbitrary: outside });

  /** A few, now and then just as many as there may be. */
  const some = <Value>(entry: fc.Arbitrary<Value>, bound: number, least = 0) => {
    const exactly = (count: number) => entry.map((each) => Array<Value>(count).fill(each));
    const few = fc.array(entry, { minLength: least, maxLength: 3 });
    const within = fc.oneof({ weight: 60, arbitrary: few }, { weight: 1, arbitrary: exactly(bound) });
    return mostly(within, exactly(bound + 1));
  };

  const text = (bound: number) =>
    mostly(
      fc.oneof(textOf(bound), fc.string({ unit: 'binary', maxLength: 12 })),
      fc.constant('n'.repeat(bound + 1)),
    );
  const name = text(most.nameCharacters);
  const note = text(most.noteCharacters);

  const angle = mostly(
    oneOf<string | number>(
      "229°39'",
      '229 39',
      ' 229:39 ',
      '229,65',
      '231.5+28',
      '229°39′30″',
      229.65,
      -0,
      0,
      360,
      -360,
      720,
      1e-300,
    ),
    oneOf<string | number>("229°75'", -361, 721, 1e308, '°', `${' '.repeat(100)}1°`),
  );
  const onScale = mostly(
    fc.oneof(fc.double({ min: -1e6, max: 1e6, noNaN: true }), oneOf(0, -0, 12.3, -1e6, 1e6, 1e-9, 0.1 + 0.2)),
    oneOf(1_000_001, 1e21, 1e308, -1e308),
  );
  const wavelengthNm = mostly(
    fc.oneof(fc.double({ min: 200, max: 1200, noNaN: true }), oneOf(200, 1200)),
    oneOf(199.99, 1200.01, 1e308),
  );

  const apexAngle = mostly(
    oneOf<NonNullable<Instrument['apexAngle']>>(
      60,
      "60°00'",
      5,
      119.99,
      { value: 60 },
      { value: "60°00'", u: "2'" },
      { value: 60, u: 10 },
    ),
    oneOf<NonNullable<Instrument['apexAngle']>>(4.99, 120, { value: 60, u: 1e-300 }, { value: 60, u: 10.1 }),
  );
  const circle = fc.record(
    {
      method: oneOf('central' as const, 'both-sides' as const),
      leastCount: mostly(oneOf<string>("1'", '30"', '0.01°', "5'"), oneOf('1', '11°', '0.001"')),
      scaleDivision: oneOf("30'", '1°'),
      windows: oneOf(1 as const, 2 as const),
      prism: oneOf('each-line' as const, 'fixed' as const),
      setAtNm: wavelengthNm,
      apexAngle,
    },
    { requiredKeys: ['method', 'leastCount'] },
  );
  const scale = fc.record({
    method: fc.constant('scale' as const),
    leastCount: mostly(oneOf(0.000001, 0.1, 1, 10_000), oneOf(0, 1e-7, 10_001, 1e308)),
  });

  /** Readings as this instrument has them. */
  function readingsOn({ method, windows }: Instrument) {
    const side =
      method === 'scale'
        ? onScale
        : windows === 2
          ? fc.tuple(angle, angle)
          : (angle as fc.Arbitrary<string | number>);
    return {
      side: side as fc.Arbitrary<NonNullable<BenchRecord['central']>[number]>,
      reading: (method === 'both-sides' ? fc.record({ left: side, right: side }) : side) as fc.Arbitrary<
        BenchRecord['unknown'][number]['lines'][number]['readings'][number]
      >,
    };
  }

  const shelf = some(oneOf('neon', 'Ne', 'helium', 'argon', 'mercury'), most.shelf);
  const brightness = oneOf('strong' as const, 'medium' as const, 'weak' as const);
  const answering = {
    shelf,
    answer: fc.oneof(name, oneOf('neon', '')),
    ranking: oneOf('always' as const, 'after-answer' as const),
    answerBeforeRanking: fc.boolean(),
  };

  return fc.oneof(circle, scale).chain((instrument) => {
    const { side, reading } = readingsOn(instrument as Instrument);
    const seen = { readings: some(reading, most.repeats, 1), color: name, brightness, note };
    const centrals = some(side, most.repeats);
    const checks = some(
      fc.record({ ...seen, wavelengthNm }, { requiredKeys: ['wavelengthNm', 'readings'] }),
      most.checks,
    );
    const known = fc.record(
      {
        lamp: oneOf('mercury', 'He', 'mercury-cadmium', ''),
        lines: some(
          fc.record(
            { ...seen, wavelengthNm, use: fc.boolean(), confirmed: fc.boolean() },
            { requiredKeys: ['readings'] },
          ),
          most.knownLines,
        ),
        check: checks,
      },
      { requiredKeys: ['lines'] },
    );
    const unknown = fc.record(
      {
        label: name,
        lines: some(
          fc.record({ ...seen, use: fc.boolean() }, { requiredKeys: ['readings'] }),
          most.unknownLines,
        ),
        notSeen: some(fc.oneof(fc.record({ wavelengthNm }), fc.record({ reading })), most.notSeen),
        complete: fc.boolean(),
        ...(instrument.method === 'scale' ? {} : { central: centrals }),
        ...answering,
      },
      { requiredKeys: ['lines'] },
    );
    return fc.record(
      {
        whichgas: fc.constant(1 as const),
        title: name,
        instrument: fc.constant(instrument),
        ...(instrument.method === 'scale' ? {} : { central: centrals }),
        known: some(known, most.lamps),
        unknown: some(unknown, most.tubes),
        check: checks,
        ...answering,
        about: fc.record(
          {
            date: note,
            observers: fc.oneof(note, some(name, most.observers)),
            station: note,
            lamp: note,
            tube: note,
            prism: note,
            slit: note,
            temperature: note,
            remarks: text(most.remarkCharacters),
          },
          { requiredKeys: [] },
        ),
      },
      { requiredKeys: ['whichgas', 'instrument', 'known', 'unknown'] },
    ) as fc.Arbitrary<BenchRecord>;
  });
}

/** As the program holds records: within every bound, or with something a step beyond one. */
export const anyRecord = fc.oneof({ weight: 3, arbitrary: records(0) }, { weight: 1, arbitrary: records(1) });
