/**
 * From where a reading of now is counted, and the curve that it is held against: asked for a reading and for a place alike,
 * so that the one leads back to the other.
 */
import type { CalibrationCurve } from '../calibrate/types.ts';
import { lampOrigin, type Origin, originVariance, tubeOrigin, withMove } from '../observe/origin.ts';
import type { Bench, UnknownTube } from '../record/bench.ts';
import type { ToldCalibration } from './types.ts';

export interface ReadingFrame {
  readonly bench: Bench;
  /** Of the known lines, as the last lamp was read. */
  readonly lamp: Origin;
  readonly origin: Origin;
  /** The central readings that count for it and not for the calibration; null: it shares the calibration's. */
  readonly ownCentral: UnknownTube['central'];
  readonly curve: CalibrationCurve | null;
  /** Variance of a place on the circle that its own central image adds, arcmin². */
  readonly originVariance: number;
}

type Calibrated = Pick<ToldCalibration, 'curve' | 'curveNow' | 'moved' | 'settingScatter'>;

/** Whose reading it is where nobody says so: that of the only tube on the bench; null: of none of them. */
export function onlyTube({ tubes }: Bench): UnknownTube | null {
  return tubes.length === 1 ? tubes[0]! : null;
}

/**
 * `bench`: as it was analysed. `of`: the tube that it belongs to, whose own central image it then counts from; null: what
 * is read after the last lamp and shares its central image. `calibrated`: the bench whose known lamp made the calibration,
 * when that was another; from that day to this the central image of the record is as one of the tube's own.
 */
export function readingFrame(
  bench: Bench,
  calibration: Calibrated,
  of: UnknownTube | null,
  calibrated: Bench = bench,
): ReadingFrame {
  const isOtherDay = calibrated !== bench && bench.central.length > 0;
  const ownCentral = of?.central ?? (isOtherDay ? bench.central : null);
  const lamp = lampOrigin(withMove(calibrated, calibration.moved));
  const found = tubeOrigin(bench, { lines: of?.lines ?? [], central: ownCentral }, lamp);
  const origin = { ...found, side: found.side || lamp.side };
  return {
    bench: { ...bench, known: calibrated.known },
    lamp,
    origin,
    ownCentral,
    curve: origin.isOwn ? calibration.curve : calibration.curveNow,
    originVariance: origin.isOwn
      ? originVariance(bench, lamp, origin, (calibration.settingScatter ?? 0) ** 2)
      : 0,
  };
}
