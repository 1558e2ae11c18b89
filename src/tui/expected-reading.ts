/** Where a line of the known lamp is to be expected on this bench. */
import { readingFrame } from '../analysis/reading-frame.ts';
import { cribOnBench } from '../analysis/station-lines.ts';
import { colourAt } from '../lines/colour.ts';
import type { Bench, UnknownTube } from '../record/bench.ts';
import type { ScreenState } from './state.ts';
import { analysisNow } from './target.ts';

/**
 * The reading as text, with the standard uncertainty of the curve where that is more than one step of vernier or
 * scale: `231°27' ± 8'`. Null before there is a curve, and beyond it. `of`: of a tube, from its own central image.
 */
export function expectedReading(
  state: ScreenState,
  wavelengthNm: number,
  of: UnknownTube | null = null,
): string | null {
  const analysis = analysisNow(state);
  if (analysis === null) return null;
  const { bench, calibration } = analysis;
  const wanted = { substance: null, wavelengthNm, colour: colourAt(wavelengthNm), brightness: null };
  const [found] = cribOnBench(readingFrame(bench, calibration, of), [wanted]);
  if (found?.reading == null) return null;
  const u = found.standardUncertainty;
  return u === null || u <= bench.leastCount ? found.reading : `${found.reading} ± ${widthText(u, bench)}`;
}

/** In the unit in which the bench is read; rounded up to a whole step, for it says where to look. */
function widthText(u: number, { method, leastCount, decimalCircle }: Bench): string {
  const steps = Math.ceil(u / leastCount) * leastCount;
  if (method === 'scale') return String(Number(steps.toPrecision(6)));
  return decimalCircle === true ? `${Number((steps / 60).toPrecision(2))}°` : `${Number(steps.toFixed(1))}'`;
}
