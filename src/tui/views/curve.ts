/** The calibration in pictures: the curve with its points, and the residuals. */

import type { Analysis } from '../../analysis/types.ts';
import { formatDeviation } from '../../angle/format-angle.ts';
import type { CalibrationLine } from '../../calibrate/types.ts';
import { signedText, unitMark } from '../../present/quantity-text.ts';
import { type PlotPoint, plotLines } from './plot.ts';
import { type Line, line, wrap } from './spans.ts';
import type { Look } from './theme.ts';

export interface CurveProps {
  readonly analysis: Analysis;
  readonly width: number;
  readonly height: number;
  readonly look: Look;
}

const NO_CURVE = ' No curve yet: it begins with two or three known lines.';

export function curveLines({ analysis, width, height, look }: CurveProps): readonly Line[] {
  const { calibration } = analysis;
  const { curve } = calibration;
  if (curve === null) return [line(NO_CURVE, 'faint')];
  const xRange = visibleRange(curve.domainNm, curve.rangeNm);
  const ends = xRange.map((nm) => curve.ordinateAt(nm));
  const points = pointsOf(calibration.lines, ({ ordinate }) => ordinate);
  const isAngle = calibration.unit === 'arcmin';
  return [
    line(` ${calibration.model}, residuals ${rmsText(analysis)}`, 'strong'),
    ...plotLines({
      width,
      height: Math.max(3, height - 2),
      xRange,
      yRange: [Math.min(...ends), Math.max(...ends)],
      points: points.filter(({ x }) => x >= xRange[0] && x <= xRange[1]),
      curve: (nm) => curve.ordinateAt(nm),
      ruleAt: null,
      yLabel: (y) => (isAngle ? formatDeviation(y / 60, 1) : y.toFixed(1)),
      look,
    }),
  ];
}

function rmsText({ calibration }: Analysis): string {
  return calibration.rms === null
    ? 'not known yet'
    : `${calibration.rms.toFixed(1)}${unitMark(calibration.unit)} rms`;
}

/** Residuals of the known lines, observed minus calculated. */
export function residualLines({ analysis, width, height, look }: CurveProps): readonly Line[] {
  const { calibration } = analysis;
  const { curve } = calibration;
  if (curve === null) return [line(NO_CURVE, 'faint')];
  const points = pointsOf(calibration.lines, ({ residual }) => residual);
  const used = points.filter(({ isOut }) => !isOut);
  const largest =
    Math.max(analysis.bench.leastCount, ...(used.length > 0 ? used : points).map(({ y }) => Math.abs(y))) *
    1.15;
  const unit = unitMark(calibration.unit);
  return [
    line(` off the curve, ${unit === "'" ? 'arc-minutes' : 'divisions'} (read - calculated)`, 'strong'),
    ...plotLines({
      width,
      height: Math.max(3, height - 2),
      xRange: visibleRange(curve.domainNm, curve.rangeNm),
      yRange: [-largest, largest],
      points,
      curve: null,
      ruleAt: 0,
      yLabel: (y) => signedText(y, 1),
      look,
    }),
  ];
}

function pointsOf(
  lines: readonly CalibrationLine[],
  value: (each: CalibrationLine) => number | null,
): readonly PlotPoint[] {
  return lines.flatMap((each) => {
    const y = value(each);
    if (each.wavelengthNm === null || y === null) return [];
    const isOut = each.status === 'set-aside' || each.status === 'slip';
    return [{ x: each.wavelengthNm, y, isOut, wavelengthNm: each.wavelengthNm }];
  });
}

function visibleRange(
  domain: readonly [number, number],
  range: readonly [number, number],
): readonly [number, number] {
  return [Math.max(domain[0], Math.min(400, range[0] - 5)), Math.min(domain[1], Math.max(700, range[1] + 5))];
}

/** What is doubtful about the known lines, in sentences. */
export function doubtLines(
  { bench, calibration }: Analysis,
  width: number,
  most: number,
  look: Look,
): readonly Line[] {
  // What a person set aside is no doubt of the program's.
  const setAside = new Set(
    bench.known.flatMap(({ lines }) => lines.flatMap(({ index, use }) => (use ? [] : [index]))),
  );
  const sentences = [
    ...calibration.lines.flatMap(({ index, message }) =>
      message === null || setAside.has(index) ? [] : [message],
    ),
    ...calibration.doubts.map(({ message }) => message),
  ];
  return [...new Set(sentences)]
    .flatMap((sentence) => wrap(`${look.glyphs.doubt} ${sentence}`, width - 2))
    .slice(0, most)
    .map((text) => line(` ${text}`, 'doubt'));
}
