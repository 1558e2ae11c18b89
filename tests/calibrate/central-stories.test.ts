/** Which of the central readings is misread, and what that does to a tube's readings. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CentralStory, centralStories } from '../../src/calibrate/central-stories.ts';
import { benchOf } from './glass-bench.ts';

const settingVariance = 0.5;

function stories(
  calibration: readonly string[],
  tube: readonly string[],
  day: 'same' | 'another' = 'same',
): readonly CentralStory[] {
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central: calibration,
    unknown: { central: tube, lines: [] },
  });
  return centralStories(bench, settingVariance, bench.tubes[0]!.central, day);
}

const only = (found: readonly CentralStory[]): CentralStory => {
  expect(found).toHaveLength(1);
  return found[0]!;
};

describe('the central readings of calibration and tube', () => {
  test('that agree are all right', () => {
    const story = only(stories(["181°04'", "181°05'"], ["181°04'"]));
    expect(story).toMatchObject({ probability: 1, misread: [] });
    expect(story.shiftArcmin).toBeCloseTo(0, 9);
  });

  test('of three, the one that is half a degree off is named, and the mean is mended by a third of it', () => {
    const story = only(stories(["225°18'", "225°47'", "225°19'"], ["225°18'"]));
    expect(story.misread).toHaveLength(1);
    const [misread] = story.misread;
    expect(misread).toMatchObject({ readBy: 'calibration', mended: { words: expect.stringMatching(/30/) } });
    expect(misread!.readingDeg).toBeCloseTo(225 + 47 / 60, 9);
    expect(misread!.mended!.readingDeg).toBeCloseTo(225 + 17 / 60, 9);
    // The calibration's direction is 10' less than its mean, so the tube's is 10' more beside it.
    expect(story.shiftArcmin).toBeCloseTo(10, 6);
  });

  test('of two that disagree, the tube’s own tells which is wrong, though no usual slip explains it', () => {
    const story = only(stories(["341°10'", "341°55'"], ["341°11'"]));
    expect(story.misread).toMatchObject([{ readBy: 'calibration', mended: null }]);
    expect(story.misread[0]!.readingDeg).toBeCloseTo(341 + 55 / 60, 9);
    expect(story.shiftArcmin).toBeCloseTo(22.5, 6);
  });

  test('two slips in one list are two', () => {
    const [story] = stories(["158°39'", "157°39'", "157°38'"], ["147°39'"]);
    expect(story!.misread.map(({ readBy }) => readBy)).toEqual(['calibration', 'tube']);
    expect(story!.shiftArcmin).toBeCloseTo(600 + 20, 6);
  });

  test('apart by what a slip makes: misread is likelier than moved, and moved is not forgotten', () => {
    const found = stories(["181°04'"], ["181°34'"]);
    expect(found[0]!.misread).toHaveLength(1);
    expect(Math.abs(found[0]!.shiftArcmin)).toBeCloseTo(30, 6);
    expect(found.at(-1)!.misread).toEqual([]);
    expect(found.at(-1)!.probability).toBeGreaterThan(1e-4);
  });

  test('apart by what no slip makes: moved is likelier', () => {
    const [lead] = stories(["181°04'"], ["181°15'"]);
    expect(lead).toMatchObject({ misread: [], shiftArcmin: 0 });
    expect(lead!.probability).toBeGreaterThan(0.5);
  });

  test('of another day need not agree', () => {
    const story = only(stories(["181°04'"], ["181°34'"], 'another'));
    expect(story.misread).toEqual([]);
  });

  test('around the zero of the circle they are as near as elsewhere', () => {
    const story = only(stories(["359°58'", "0°28'", "359°59'"], ["359°58'"]));
    expect(story.shiftArcmin).toBeCloseTo(10, 6);
  });

  test('whatever they are, the probabilities are sound and sum to 1', () => {
    const reading = fc
      .integer({ min: 0, max: 21599 })
      .map((minutes) => `${Math.floor(minutes / 60)}°${minutes % 60}'`);
    const list = fc.array(reading, { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(
        list,
        list,
        fc.constantFrom('same' as const, 'another' as const),
        (calibration, tube, day) => {
          const found = stories(calibration, tube, day);
          expect(found.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
          for (const { shiftArcmin, probability } of found) {
            expect(Number.isFinite(shiftArcmin)).toBe(true);
            expect(probability).toBeGreaterThan(0);
          }
        },
      ),
    );
  });
});
