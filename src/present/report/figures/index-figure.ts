/** The prism's index against wavelength, beside the catalogue glasses that come near. */
import * as Plot from '@observablehq/plot';
import type { ToldIndices } from '../../../analysis/types.ts';
import { cauchyIndex } from '../../../calibrate/cauchy.ts';
import { glasses, refractiveIndex } from '../../../calibrate/curve/glasses.ts';
import { drawOverNm, fillOf, ink } from './canvas.ts';

const STEPS = 60;
/** The picture reaches this much of the measured indices' range beyond them, and at the least so far. */
const BEYOND = { part: 0.4, least: 0.012 } as const;

export function indexFigure({ lines, cauchy }: ToldIndices): string {
  const from = Math.min(...lines.map(({ wavelengthNm }) => wavelengthNm)) - 12;
  const to = Math.max(...lines.map(({ wavelengthNm }) => wavelengthNm)) + 12;
  const wavelengths = Array.from({ length: STEPS + 1 }, (_, k) => from + ((to - from) * k) / STEPS);
  const measured = lines.map(({ value }) => value);
  const beyond = Math.max(BEYOND.least, BEYOND.part * (Math.max(...measured) - Math.min(...measured)));
  const domain: [number, number] = [Math.min(...measured) - beyond, Math.max(...measured) + beyond];
  const inside = (n: number): boolean => n >= domain[0] && n <= domain[1];
  return drawOverNm([from, to], {
    height: 205,
    marginLeft: 44,
    marginRight: 56,
    marginTop: 20,
    y: {
      domain,
      label: 'refractive index',
      labelArrow: 'none',
      grid: true,
      ticks: 7,
      tickFormat: (n: number) => n.toFixed(2),
    },
    marks: [
      ...glassMarks(wavelengths, inside),
      cauchy &&
        Plot.line(
          wavelengths.map((nm) => ({ nm, n: cauchyIndex(cauchy, nm) })).filter(({ n }) => inside(n)),
          { x: 'nm', y: 'n', stroke: ink.main, strokeWidth: 1.2 },
        ),
      ...lines.map((line) =>
        Plot.dot([line], {
          x: 'wavelengthNm',
          y: 'value',
          r: 4,
          fill: fillOf(line.wavelengthNm),
          stroke: ink.main,
          strokeWidth: 1.2,
        }),
      ),
      Plot.ruleX(lines, {
        x: 'wavelengthNm',
        y1: ({ value, standardUncertainty }: (typeof lines)[number]) => value - 2 * standardUncertainty,
        y2: ({ value, standardUncertainty }: (typeof lines)[number]) => value + 2 * standardUncertainty,
        stroke: ink.main,
      }),
    ],
  });
}

/** The glasses whose curve crosses the picture, each with the part of it that does and its name at the end. */
function glassMarks(wavelengths: readonly number[], inside: (n: number) => boolean): Plot.Markish[] {
  return glasses.flatMap((glass) => {
    const shown = wavelengths
      .map((nm) => ({ nm, n: refractiveIndex(glass, nm) }))
      .filter(({ n }) => inside(n));
    if (shown.length <= STEPS / 4) return [];
    const name = { text: () => glass.name, textAnchor: 'start', dx: 5, fill: ink.main } as const;
    return [
      // Broad and light, so that it shows beneath the measured curve that it may run under.
      Plot.line(shown, { x: 'nm', y: 'n', stroke: ink.faint, strokeWidth: 5 }),
      Plot.text(shown.slice(-1), { x: 'nm', y: 'n', ...name }),
    ];
  });
}
