/** The calibration as two pictures: the curve through the known lines, and what is left over. */
import * as Plot from '@observablehq/plot';
import type { Analysis, ToldCalibrationLine } from '../../../analysis/types.ts';
import { formatDeviation } from '../../../angle/format-angle.ts';
import type { CalibrationCurve } from '../../../calibrate/types.ts';
import { isUsedAsRead } from '../../../words/lines-in-curve.ts';
import { unitMark } from '../../quantity-text.ts';
import { roundPlaces } from './bench-scale.ts';
import { drawOverNm, fillOf, HALF_WIDTH, ink } from './canvas.ts';
import { spreadLabels, thinned } from './spread-labels.ts';

interface Point {
  readonly label: string;
  readonly nm: number;
  readonly ordinate: number;
  readonly residual: number;
  readonly u: number;
  readonly line: ToldCalibrationLine;
}

const frame = { height: 212, marginLeft: 56, marginRight: 14, marginTop: 30 };

/** Known lines that have a place in the picture. */
function pointsOf(lines: readonly ToldCalibrationLine[]): Point[] {
  return lines.flatMap((line) => {
    const { wavelengthNm: nm, ordinate, residual, standardUncertainty: u } = line;
    if (nm === null || ordinate === null || residual === null) return [];
    return [{ label: String(line.index + 1), nm, ordinate, residual, u: u ?? 0, line }];
  });
}

/** Wavelengths shown: the known lines and the readings of the tubes, with a margin, inside the curve's domain. */
function wavelengthsShown(analysis: Analysis, curve: CalibrationCurve): [number, number] {
  const all = [
    ...pointsOf(analysis.calibration.lines).map((point) => point.nm),
    ...analysis.tubes.flatMap((tube) => tube.lines.flatMap((line) => line.wavelengthNm ?? [])),
    ...curve.rangeNm,
  ];
  return [
    Math.max(curve.domainNm[0], Math.min(...all) - 12),
    Math.min(curve.domainNm[1], Math.max(...all) + 12),
  ];
}

function steps([from, to]: readonly [number, number], count: number): number[] {
  return Array.from({ length: count + 1 }, (_, at) => from + ((to - from) * at) / count);
}

/** Curve, its ±2u band, the known lines (numbered as in the table) and the readings of the unknown tubes. */
export function curveFigure(analysis: Analysis, curve: CalibrationCurve): string {
  const perUnit = curve.unit === 'arcmin' ? 60 : 1;
  const shown = wavelengthsShown(analysis, curve);
  const samples = steps(shown, 120).map((nm) => {
    const ordinate = curve.ordinateAt(nm);
    const spread = 2 * Math.sqrt(curve.covariance(nm, nm));
    return {
      nm,
      y: ordinate / perUnit,
      low: (ordinate - spread) / perUnit,
      high: (ordinate + spread) / perUnit,
    };
  });
  const unknown = analysis.tubes.flatMap((tube) =>
    tube.lines.flatMap((line) =>
      line.wavelengthNm === null || line.ordinate === null
        ? []
        : [{ nm: line.wavelengthNm, y: line.ordinate / perUnit }],
    ),
  );
  const points = pointsOf(analysis.calibration.lines).map((point) => ({
    ...point,
    y: point.ordinate / perUnit,
  }));
  return drawOverNm(shown, {
    ...frame,
    y: {
      label: curve.unit === 'arcmin' ? 'deviation' : 'scale reading',
      labelArrow: 'none',
      grid: true,
      ...(curve.unit === 'arcmin' ? degreeTicks(samples, analysis) : { tickFormat: plainNumber }),
    },
    marks: [
      Plot.areaY(samples, { x: 'nm', y1: 'low', y2: 'high', fill: ink.band }),
      ...numberLabels(points, shown),
      Plot.line(samples, { x: 'nm', y: 'y', stroke: ink.main, strokeWidth: 1.2 }),
      Plot.dot(unknown, {
        x: 'nm',
        y: 'y',
        symbol: 'triangle',
        r: 4,
        fill: 'white',
        stroke: ink.main,
        strokeWidth: 1,
      }),
      ...knownMarks(points),
    ],
  });
}

/** Without a thousands comma, which half the world reads as a decimal mark. */
const plainNumber = (value: number): string => String(Number(value.toFixed(6)));

/** Ticks at whole steps of degrees and minutes, written as the circle is read. */
function degreeTicks(samples: readonly { low: number; high: number }[], { bench }: Analysis) {
  const lowest = Math.min(...samples.map(({ low }) => low));
  const highest = Math.max(...samples.map(({ high }) => high));
  return {
    ticks: roundPlaces(lowest, highest, 8),
    tickFormat: (degrees: number) => formatDeviation(degrees, Math.max(1, bench.leastCount)),
  };
}

/** Residual of every known line with its ±u bar, on the curve's own ±2u band. */
export function residualFigure(analysis: Analysis, curve: CalibrationCurve): string {
  const shown = wavelengthsShown(analysis, curve);
  const points = pointsOf(analysis.calibration.lines).map((point) => ({ ...point, y: point.residual }));
  const trusted = points.filter(({ line }) => isUsedAsRead(line));
  const reach = Math.max(...trusted.map(({ y, u }) => Math.abs(y) + 1.3 * u), 1e-6);
  const band = steps(shown, 120).map((nm) => ({
    nm,
    spread: Math.min(1.1 * reach, 2 * Math.sqrt(curve.covariance(nm, nm))),
  }));
  // A slip of 30' would flatten everything else: what lies beyond is drawn at the edge, its number in the table.
  const inside = points.map((point) => ({ ...point, y: Math.max(-reach, Math.min(reach, point.y)) }));
  return drawOverNm(shown, {
    ...frame,
    y: {
      domain: [-1.1 * reach, 1.1 * reach],
      label: `residual (${unitMark(curve.unit).trim()})`,
      labelArrow: 'none',
      ticks: 6,
      grid: true,
    },
    marks: [
      Plot.areaY(band, {
        x: 'nm',
        y1: ({ spread }: { spread: number }) => -spread,
        y2: 'spread',
        fill: ink.band,
      }),
      ...numberLabels(points, shown),
      Plot.ruleY([0], { stroke: ink.main }),
      Plot.ruleX(trusted, {
        x: 'nm',
        y1: ({ y, u }: { y: number; u: number }) => y - u,
        y2: ({ y, u }: { y: number; u: number }) => y + u,
        stroke: ink.main,
      }),
      ...knownMarks(inside),
    ],
  });
}

/** Each status has its own shape, so that the picture needs no colour. */
const shapes = {
  used: { symbol: 'circle', hollow: false },
  reassigned: { symbol: 'diamond', hollow: false },
  slip: { symbol: 'times', hollow: true },
  'set-aside': { symbol: 'square', hollow: true },
} as const;

function knownMarks(points: readonly (Point & { y: number })[]): Plot.Markish[] {
  return points.map((point) => {
    const { symbol, hollow } = shapes[point.line.status];
    return Plot.dot([point], {
      x: 'nm',
      y: 'y',
      symbol,
      r: 4,
      fill: hollow ? 'none' : fillOf(point.nm),
      stroke: ink.main,
      strokeWidth: 1.2,
    });
  });
}

/** The lines' numbers along the upper edge, each with a hair line down to its place. */
function numberLabels(points: readonly Point[], shown: readonly [number, number]): Plot.Markish[] {
  const sorted = thinned(
    [...points].sort((a, b) => a.nm - b.nm),
    22,
  );
  const nmPerUnit = (shown[1] - shown[0]) / (HALF_WIDTH - frame.marginLeft - frame.marginRight);
  const places = spreadLabels(
    sorted.map((point) => point.nm),
    14 * nmPerUnit,
  );
  const labels = sorted.map((point, at) => ({ ...point, place: places[at]! }));
  return [
    Plot.ruleX(sorted, { x: 'nm', stroke: ink.faint, strokeDasharray: '2 3' }),
    Plot.text(labels, {
      x: 'place',
      text: 'label',
      frameAnchor: 'top',
      dy: -12,
      fill: ink.main,
    }),
  ];
}
