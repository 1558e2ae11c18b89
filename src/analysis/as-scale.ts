/** A bench with a divided circle read as if its circle were a plain scale: the zero is fitted with the curve. */
import { wrapDegrees } from '../angle/wrap.ts';
import { mean } from '../numeric/sum.ts';
import { lineSettings } from '../observe/bench-constants.ts';
import type { Bench, BenchLine, Setting } from '../record/bench.ts';

/**
 * Readings become degrees on a scale without a zero, on one turn of the circle; of both sides half the angle between
 * them, of two windows their mean. Central images and apex angle, which mean nothing on a scale, go. A bench that has a
 * scale already is returned as it is. `calibration`: the scale whose turn its readings have to be on, where it has one.
 */
export function asScale(bench: Bench, calibration: Bench | null = null): Bench {
  if (bench.method === 'scale') return bench;
  const { decimalCircle: _, ...kept } = bench;
  const [first] = [calibration ?? [], bench].flat().flatMap(lineSettings);
  const turnDeg = first?.kind === 'one-side' ? (first.windows[0] ?? 0) : 0;
  const scaled = (settings: readonly Setting[]): Setting[] =>
    settings.map((setting) => ({ kind: 'one-side', windows: [placeDeg(setting, turnDeg)] }));
  const lineOf = <Line extends BenchLine>(line: Line): Line => ({ ...line, settings: scaled(line.settings) });
  return {
    ...kept,
    method: 'scale',
    leastCount: bench.leastCount / 60,
    scaleDivisionArcmin: null,
    windows: 1,
    prism: 'each-line',
    setAtNm: null,
    apexAngle: null,
    central: [],
    known: bench.known.map((lamp) => ({ ...lamp, lines: lamp.lines.map(lineOf) })),
    tubes: bench.tubes.map((tube) => ({
      ...tube,
      central: null,
      lines: tube.lines.map(lineOf),
      notSeen: tube.notSeen.map((place) =>
        place.kind === 'reading' ? { ...place, settings: scaled(place.settings) } : place,
      ),
    })),
    check: bench.check.map((line) => ({ ...line, settings: scaled(line.settings) })),
  };
}

/** Degrees, within half a turn of `turnDeg`, so that a spectrum through 360° hangs together. */
function placeDeg(setting: Setting, turnDeg: number): number {
  if (setting.kind === 'both-sides') {
    return mean(
      setting.left.map((left, at) => Math.abs(wrapDegrees(left - (setting.right[at] ?? left))) / 2),
    );
  }
  const [one = 0, other] = setting.windows;
  const place = other === undefined ? one : one + wrapDegrees(other - one - 180) / 2;
  return turnDeg + wrapDegrees(place - turnDeg);
}
