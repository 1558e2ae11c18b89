/** What is said of a bench that was moved between two lamps: how sure, what was done, and what the central images say. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { verifyTube } from '../../src/analysis/verify.ts';
import { lampMovedSentence, movedZeroSentence } from '../../src/words/lamp-moved.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  hydrogenNm,
  knownLamp,
  mercuryNm,
  neonNm,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';

/** The bench after its circle was turned by so much. */
const on = (arcmin: number): GlassReader => new GlassReader({ centralDeg: 181 + (4 + arcmin) / 60 });
const lamp = (reader: GlassReader, name: string, wavelengthsNm: readonly number[]) =>
  knownLamp(reader, { lamp: name, lines: wavelengthsNm.map((nm) => ({ nm, slipArcmin: 0 })) });

describe('a move with its chance', () => {
  const bench = benchOf(
    recordOf(on(0), { known: [lamp(on(0), 'helium', heliumNm), lamp(on(0), 'mercury', mercuryNm)] }),
  );
  const move = { lampIndex: 1, shift: 8, u: 0.4, centralsBefore: bench.central.length };

  test.each([
    [0.56, 'than the curve of helium says, with a chance of 56.0 %: was the telescope'],
    [0.799, 'with a chance of 79.9 %: was'],
    [0.8, 'than the curve of helium says: was the telescope'],
  ])('with probability %d is told with it where that is not sure', (probability, said) => {
    const finding = { move, probability, shownBy: [], leftScatter: null };
    expect(lampMovedSentence(bench, finding)).toContain(said);
  });
});

const lamps = [
  lamp(on(0), 'helium', heliumNm),
  lamp(on(8), 'mercury', mercuryNm),
  lamp(on(0), 'hydrogen', hydrogenNm),
];

test('of a bench that was put back all that count from one place are one list', () => {
  const record = recordOf(on(0), { known: lamps, unknown: unknownTube(on(0), neonNm, { label: 'tube C' }) });
  const move = { lampIndex: 1, until: 2, shift: 8, u: 0.4, centralsBefore: 1 };
  const sentence = movedZeroSentence({ ...benchOf(record), moved: move }, move);
  expect(sentence).toMatch(/ for helium, hydrogen and tube C and from .* for mercury\.$/);
});

describe('on a scale', () => {
  const bench = { ...benchOf(recordOf(on(0), { known: lamps })), method: 'scale' as const };

  test.each([
    [1.7, undefined, 'added to the readings of helium'],
    [-1.7, undefined, 'taken off the readings of helium'],
    [1.7, 2, 'taken off the readings of mercury'],
    [-1.7, 2, 'added to the readings of mercury'],
  ])('a move by %d until lamp %s is taken off those that stood otherwise than now', (shift, until, said) => {
    const move = { lampIndex: 1, shift, u: 0.1, centralsBefore: 0, ...(until && { until }) };
    const finding = { move, probability: 1, shownBy: [], leftScatter: null };
    expect(lampMovedSentence(bench, finding)).toContain(`as it stands now: as much is ${said}; read`);
    expect(movedZeroSentence(bench, move)).toContain(`scale units) are ${said}.`);
  });
});

/** Helium, then mercury after a move by 8'; `centrals`, and the tube with a central image of its own or without, at these places. */
function toldOf(centrals: readonly number[], tubeAt: number, own: boolean) {
  const central = own ? { central: [on(tubeAt).central()] } : {};
  const { calibration, tubes } = analyseBench(
    benchOf(
      recordOf(on(0), {
        central: centrals.map((arcmin) => on(arcmin).central()),
        known: [lamp(on(0), 'helium', heliumNm), lamp(on(8), 'mercury', mercuryNm)],
        unknown: unknownTube(on(tubeAt), neonNm, { label: 'tube C', ...central }),
      }),
    ),
  );
  expect(calibration.doubts.map(({ kind }) => kind)).toEqual(['moved-lamp']);
  return { ofLamps: calibration.doubts[0]!.message, ofTube: tubes[0]!.doubts.map(({ message }) => message) };
}

describe('when the central image was read', () => {
  test('is asked where nothing shows it, with what hangs on it', () => {
    const { ofLamps, ofTube } = toldOf([0], 8, false);
    expect(ofLamps).toMatch(
      /moved by as much: read it again for the tube\. If it was read only after the move, all deviations are off by as much, though no wavelength that counts from it\.$/,
    );
    expect(ofTube).toEqual([]);
  });

  test("is not asked where the tube's own stands accordingly", () => {
    expect(toldOf([0], 8, true).ofLamps).toMatch(
      /counted from the central image moved by as much, where that of tube C stands\.$/,
    );
    expect(toldOf([8], 8, true).ofLamps).toMatch(
      /goes with what was read later, as that of tube C does: the lines of helium are counted from it moved back by as much\.$/,
    );
  });

  test('a tube that stands elsewhere shows nothing', () => {
    const { ofLamps, ofTube } = toldOf([0], 30, true);
    expect(ofLamps).toContain('moved by as much, tubes with a central image of their own from that.');
    expect(ofTube[0]).toMatch(
      /differs from the calibration's by 22\.\d'.*: the bench was moved between lamp and tube/,
    );
  });
});

describe('a bench that was put back for the tube', () => {
  test('is told so of readings that share the central image', () => {
    const [told] = toldOf([0], 0, false).ofTube;
    expect(told).toMatch(
      /nearer to the central image than the calibration puts the lines, as they would where the bench stood for helium: was it put back before the tube\?/,
    );
  });

  test("is told so of the tube's own central image", () => {
    const [told, ...more] = toldOf([0, 8], 0, true).ofTube;
    expect(told).toMatch(
      /^tube C: its central image stands [78]\.\d' .* from where the last known lamp has it, and where the bench stood for helium: was it put back before the tube\?$/,
    );
    expect(more).toEqual([]);
  });

  test('is not told of one that was moved on', () => {
    expect(toldOf([0], 16, false).ofTube[0]).toMatch(
      /further from .*: was the bench, the slit or the table moved/,
    );
  });
});

test.each([
  [[0, 8, 8], /^The readings are good and are those of neon .*: check key and label\.$/],
  [
    [0, 8, 20],
    /^The readings are those of neon .* not all of them are sound: clear up the known lamp first\.$/,
  ],
] as const)(
  'a move does not speak against the readings of a tube where it explains the lamps: %s',
  ([first, second, third], reason) => {
    const analysis = analyseBench(
      benchOf(
        recordOf(on(0), {
          known: [
            lamp(on(first), 'helium', heliumNm),
            lamp(on(second), 'mercury', mercuryNm),
            lamp(on(third), 'hydrogen', hydrogenNm),
          ],
          unknown: unknownTube(on(third), neonNm),
        }),
      ),
    );
    const check = verifyTube(analysis, analysis.tubes[0]!, 'krypton');
    expect(check.reason).toMatch(reason);
    expect(check.blame.map(({ kind }) => kind)).toContain('moved-lamp');
  },
);

test('more than one move is not told as if one explained all of it', () => {
  const { calibration } = analyseBench(
    benchOf(
      recordOf(on(0), {
        known: [
          lamp(on(0), 'helium', heliumNm),
          lamp(on(8), 'mercury', mercuryNm),
          lamp(on(20), 'hydrogen', hydrogenNm),
        ],
      }),
    ),
  );
  expect(calibration.doubts[0]!.message).toMatch(
    /One move does not explain it all: the lines still scatter by \d times what is usual, so the amount is a mean of several moves or a line is misread\.$/,
  );
});
