import fc from 'fast-check';
import { parseFragment } from 'parse5';
import { describe, expect, test } from 'vitest';
import { benchScale, roundPlaces } from '../../src/present/report/figures/bench-scale.ts';
import { curveFigure, residualFigure } from '../../src/present/report/figures/calibration-figures.ts';
import { indexFigure } from '../../src/present/report/figures/index-figure.ts';
import { spreadLabels, thinned } from '../../src/present/report/figures/spread-labels.ts';
import { stripFigure } from '../../src/present/report/figures/strip-figure.ts';
import { analysis, scaleAnalysis } from './fixture.ts';
import { elements, textOf } from './html-tree.ts';

const curve = analysis.calibration.curve!;
const tube = analysis.tubes[0]!;

/** What a figure is made of, without coordinates: how many of each element, and every text in order. */
function digest(svg: string): { elements: Record<string, number>; texts: string[] } {
  const tree = elements(parseFragment(svg));
  const count: Record<string, number> = {};
  for (const { tagName } of tree) count[tagName] = (count[tagName] ?? 0) + 1;
  return { elements: count, texts: tree.filter(({ tagName }) => tagName === 'text').map(textOf) };
}

describe('figures', () => {
  const figures = {
    curve: () => curveFigure(analysis, curve),
    'curve of a scale': () => curveFigure(scaleAnalysis, scaleAnalysis.calibration.curve!),
    residuals: () => residualFigure(analysis, curve),
    indices: () => indexFigure(analysis.calibration.indices!),
    'strip of the leading tube': () => stripFigure(analysis.bench, tube, tube.candidates[0]!, curve),
    'strip of the runner-up': () => stripFigure(analysis.bench, tube, tube.candidates[1]!, curve),
  };

  test.each(Object.entries(figures))(
    '%s: drawn the same every time, every coordinate a number',
    (_, draw) => {
      const svg = draw();
      expect(draw()).toBe(svg);
      expect(svg).not.toMatch(/NaN|undefined|Infinity/);
      expect(digest(svg)).toMatchSnapshot();
    },
  );

  test('the difference of each pair is written in the strip', () => {
    const { texts } = digest(figures['strip of the leading tube']());
    for (const { residualNm } of tube.candidates[0]!.matches) {
      expect(texts).toContain(`${residualNm < 0 ? '' : '+'}${residualNm.toFixed(1)} nm`);
    }
    expect(
      digest(figures['strip of the runner-up']()).texts.filter((text) => text === 'no line'),
    ).toHaveLength(5);
  });
});

test('a match that needs a slip undone is not shown as a difference in nm', () => {
  const [first, ...others] = tube.candidates[0]!.matches;
  const slipped = { ...tube.candidates[0]!, matches: [{ ...first!, asRead: false }, ...others] };
  const { texts } = digest(stripFigure(analysis.bench, tube, slipped, curve));
  expect(texts.filter((text) => text === 'slip?')).toHaveLength(1);
  expect(texts).not.toContain(`${first!.residualNm.toFixed(1)} nm`);
});

test('a tube with hundreds of lines is drawn whole, with as many labels as there is room for', () => {
  const lines = Array.from({ length: 300 }, (_, index) => {
    const nm = 420 + index;
    return { ...tube.lines[0]!, index, wavelengthNm: nm, ordinate: curve.ordinateAt(nm) };
  });
  const svg = stripFigure(
    analysis.bench,
    { ...tube, lines },
    { ...tube.candidates[1]!, matches: [], missing: [] },
    curve,
  );
  const { texts } = digest(svg);
  expect(texts.filter((text) => text === 'no line').length).toBeLessThanOrEqual(50);
  expect(svg.split('aria-label="dot"').length - 1).toBe(300);
});

describe('labels spread along an axis', () => {
  test('stay where they are when there is room', () => {
    expect(spreadLabels([0, 20, 50], 12)).toEqual([0, 20, 50]);
  });

  test('share the shift when there is none', () => {
    expect(spreadLabels([10, 10], 12)).toEqual([4, 16]);
  });

  test('are thinned evenly where too many would stand', () => {
    expect(thinned([1, 2, 3, 4, 5], 5)).toEqual([1, 2, 3, 4, 5]);
    expect(thinned([1, 2, 3, 4, 5], 3)).toEqual([1, 3, 5]);
  });

  test('keep their order and their distance, whatever the anchors', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 700, noNaN: true }), { maxLength: 40 }), (anchors) => {
        const places = spreadLabels(
          [...anchors].sort((a, b) => a - b),
          12,
        );
        for (const [at, place] of places.entries()) {
          if (at > 0) expect(place - places[at - 1]!).toBeGreaterThanOrEqual(12 - 1e-6);
        }
      }),
    );
  });
});

describe("the bench's own scale", () => {
  const around = (centralDeg: number, lineDeg: number) => ({
    ...analysis.bench,
    central: [{ kind: 'one-side' as const, windows: [centralDeg] }],
    tubes: [
      {
        ...analysis.bench.tubes[0]!,
        lines: [
          {
            ...analysis.bench.tubes[0]!.lines[0]!,
            settings: [{ kind: 'one-side' as const, windows: [lineDeg] }],
          },
        ],
      },
    ],
  });

  test('runs through 360°', () => {
    const scale = benchScale(around(340, 28), 0);
    expect(scale.textAt(scale.placeOf(48 * 60))).toBe("28°00'");
  });

  test('runs backwards where the lines lie on the falling side', () => {
    const scale = benchScale(around(20, 332), 0);
    expect(scale.textAt(scale.placeOf(48 * 60))).toBe("332°00'");
  });

  test('shows deviations where both sides are read, and plain numbers on a drum', () => {
    const both = benchScale({ ...analysis.bench, method: 'both-sides' }, 0);
    expect([both.title, both.textAt(both.placeOf(48.5 * 60))]).toEqual(['deviation', "48°30'"]);
    const drum = benchScale(scaleAnalysis.bench, 0);
    expect(drum.textAt(drum.placeOf(12.34))).toBe('12.34');
  });

  test('has round ticks', () => {
    expect(roundPlaces(228.4, 229.4, 8).map((place) => place.toFixed(4))).toEqual([
      '228.5000',
      '228.6667',
      '228.8333',
      '229.0000',
      '229.1667',
      '229.3333',
    ]);
  });
});
