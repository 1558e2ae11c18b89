/** The calibration in pictures: the curve with its points, and the residuals. */
import type { Analysis, ToldCalibrationLine } from '../../analysis/types.ts';
import { formatDeviation } from '../../angle/format-angle.ts';

import { unitMark } from '../../present/quantity-text.ts';
import { checksOnCurve } from '../check-line.ts';
import { leadingSentences, whyNoCurve } from '../no-curve.ts';
import { offDecimals, offNumber } from './off-text.ts';
import { type PlotPoint, type PlotProps, plotLines, pointGlyph } from './plot.ts';
import { type Area, fitting, type Line, line, paragraph } from './spans.ts';
import { endColours } from './strip-marks.ts';

const TOO_FEW_LINES = 'No curve yet: it begins with two or three known lines.';

/** In the place of the curve why there is none, as many whole sentences as have room. */
export function noCurveLines({ calibration }: Analysis, { width, height, look }: Area): readonly Line[] {
  const why = whyNoCurve(calibration);
  if (why === null) return [line(` ${TOO_FEW_LINES}`, 'faint')];
  const rows = (text: string) => paragraph(`${look.glyphs.doubt} ${text}`, width, 'doubt');
  return rows(leadingSentences(why, (shorter) => rows(shorter).length <= height));
}

export function curveLines(analysis: Analysis, area: Area): readonly Line[] {
  const { calibration } = analysis;
  const { curve } = calibration;
  if (curve === null) return noCurveLines(analysis, area);
  const range = visibleRange(curve.domainNm, curve.rangeNm);
  const ends = range.map((nm) => curve.ordinateAt(nm));
  const points = pointsOf(calibration.lines, ({ ordinate }) => ordinate);
  const isAngle = calibration.unit === 'arcmin';
  return [
    line(` ${calibration.model}, residuals ${rmsText(analysis)}`, 'strong'),
    ...plotLines({
      ...plotted(area),
      ...asTheStripRuns(range, analysis),
      yRange: [Math.min(...ends), Math.max(...ends)],
      points: points.filter(({ x }) => x >= range[0] && x <= range[1]),
      curve: (nm) => curve.ordinateAt(nm),
      ruleAt: null,
      yLabel: (y) => (isAngle ? formatDeviation(y / 60, 1) : y.toFixed(1)),
    }),
  ];
}

/** Below a line of words, and above the axis. */
const plotted = ({ height, ...area }: Area): Area => ({ ...area, height: Math.max(3, height - 2) });

function rmsText({ bench, calibration }: Analysis): string {
  return calibration.rms === null
    ? 'not known yet'
    : `${calibration.rms.toFixed(offDecimals(bench))}${unitMark(calibration.unit)} from the curve, typically`;
}

/** Residuals of the known lines and of the check lines, observed minus calculated. */
export function residualLines(analysis: Analysis, area: Area): readonly Line[] {
  const { calibration } = analysis;
  const { curve } = calibration;
  if (curve === null) return noCurveLines(analysis, area);
  const known = pointsOf(calibration.lines, ({ residual }) => residual);
  const checked = checksOnCurve(area.state).map(
    ({ wavelengthNm, residual }): PlotPoint => ({
      x: wavelengthNm,
      y: residual,
      kind: 'check',
      wavelengthNm,
    }),
  );
  const points = [...known, ...checked];
  // Slips lie far away: they stand at the edge, so that the others can be told apart.
  const inside = points.filter(({ kind }) => kind !== 'out');
  const sizes = (inside.length > 0 ? inside : points).map(({ y }) => Math.abs(y));
  const largest = Math.max(analysis.bench.leastCount, ...sizes) * 1.15;
  return [
    residualHead(points, largest, unitMark(calibration.unit), area),
    ...plotLines({
      ...plotted(area),
      ...asTheStripRuns(visibleRange(curve.domainNm, curve.rangeNm), analysis),
      yRange: [-largest, largest],
      points,
      curve: null,
      ruleAt: 0,
      yLabel: (y) => offNumber(y, analysis.bench),
    }),
  ];
}

/** What is drawn; where not every point is an ordinary one, what the signs mean, in fewer words where room is short. */
function residualHead(
  points: readonly PlotPoint[],
  largest: number,
  unit: string,
  { width, look }: Area,
): Line {
  const units = unit === "'" ? 'arc-minutes' : 'scale units';
  const isBeyond = points.some(({ y }) => Math.abs(y) > largest);
  const signs = (used: string, out: string, beyond: string): string =>
    (['used', 'out', 'check'] as const)
      .filter((kind) => points.some((point) => point.kind === kind))
      .map((kind) => {
        const words = { used, out: isBeyond ? beyond : out, check: 'check line' }[kind];
        return `  ${pointGlyph(kind, look)} ${words}`;
      })
      .join('');
  const wordings = points.every(({ kind }) => kind === 'used')
    ? [` read minus curve, ${units}`]
    : [
        ` read minus curve, ${units}${signs('in the fit', 'left out', 'left out, farther off than drawn')}`,
        ` read minus curve, ${units}${signs('in fit', 'out', 'out, farther off')}`,
        ` off, ${unit.trim()}${signs('in fit', 'out', 'out, farther off')}`,
      ];
  return line(fitting(wordings, width), 'strong');
}

function pointsOf(
  lines: readonly ToldCalibrationLine[],
  value: (each: ToldCalibrationLine) => number | null,
): readonly PlotPoint[] {
  return lines.flatMap((each) => {
    const y = value(each);
    if (each.wavelengthNm === null || y === null) return [];
    const kind = each.status === 'set-aside' || each.status === 'slip' ? 'out' : 'used';
    return [{ x: each.wavelengthNm, y, kind, wavelengthNm: each.wavelengthNm }];
  });
}

function visibleRange(
  domain: readonly [number, number],
  range: readonly [number, number],
): readonly [number, number] {
  return [Math.max(domain[0], Math.min(400, range[0] - 5)), Math.min(domain[1], Math.max(700, range[1] + 5))];
}

/** The range from left to right, as the spectrum on the strip runs, and which end is red. */
function asTheStripRuns(
  [shortest, longest]: readonly [number, number],
  analysis: Analysis,
): Pick<PlotProps, 'xRange' | 'ends'> {
  const ends = endColours(analysis, { kind: 'lamp', lamp: 0 });
  return { ends, xRange: ends[0] === 'red' ? [longest, shortest] : [shortest, longest] };
}
