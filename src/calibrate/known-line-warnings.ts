/** What a person should know of the known lines as a whole. */

import type { TubeSpectrum } from '../lines/spectrum.ts';
import { lampSpectrum, tubes } from '../lines/table.ts';
import type { Origin } from '../observe/origin.ts';
import { usualScatter } from '../observe/setting-scatter.ts';
import type { Bench, KnownLamp, Warning } from '../record/bench.ts';
import type { KnownReading } from './assign/known-reading.ts';

/** `calibrated`: some explanation of the known lines gave a curve. */
export function knownLineWarnings(
  bench: Bench,
  { central }: Origin,
  readings: readonly KnownReading[],
  calibrated: boolean,
): Warning[] {
  const lines = bench.known.reduce((sum, lamp) => sum + lamp.lines.length, 0);
  if (bench.method === 'central' && central === null && lines > 0) {
    const message =
      'The reading of the central image is missing: without it no deviation can be computed. Read it and put it under "central".';
    return [{ code: 'central-missing', message }];
  }
  if (readings.length < 2) {
    const message = `There ${readings.length === 1 ? 'is one known line' : 'are no known lines'}: a calibration needs two at the least, six or more for a good one.`;
    return [{ code: 'too-few-known-lines', message }];
  }
  const names = bench.known.flatMap((lamp) => lampNameWarning(lamp) ?? []);
  if (!calibrated) {
    const message =
      'No curve can be drawn through the known lines: they read alike, or not in the order of their wavelengths. Look at their wavelengths and readings again.';
    return [...names, { code: 'no-curve', message }];
  }
  if (readings.length < 4) {
    const message = `Only ${readings.length} known lines: the shape of the curve is taken from the catalogue of glasses, and the uncertainties are large for it.`;
    return [...names, { code: 'few-known-lines', message }];
  }
  return names;
}

/** From this many times the usual scatter on it is worth a word, if there are lines enough to know it by. */
const LARGE_SCATTER = 2.2;
const ENOUGH_FOR_SCATTER = 5;

export function scatterWarning(bench: Bench, lines: number, settingVariance: number): Warning[] {
  const times = Math.sqrt(settingVariance) / usualScatter(bench);
  if (lines < ENOUGH_FOR_SCATTER || times < LARGE_SCATTER) return [];
  const message = `The known lines scatter about the curve by ${times.toFixed(0)} times what is usual for this ${bench.method === 'scale' ? 'scale' : 'circle'}: look at the residuals for a wrong name or a misread vernier, and set each line at minimum deviation.`;
  return [{ code: 'large-scatter', message }];
}

/** Stated wavelengths this close to a line of the table are that line, nm. */
const SAME_LINE_NM = 0.6;
const ENOUGH_TO_NAME = 4;

/** The wavelengths as stated are another lamp's: a slip of the pen in the name, not of the eye. */
function lampNameWarning(lamp: KnownLamp): Warning | null {
  const stated = lamp.lines.flatMap(({ statedWavelengthNm }) => statedWavelengthNm ?? []);
  if (lamp.substances.length === 0 || stated.length < ENOUGH_TO_NAME) return null;
  const own = listedShare(stated, lampSpectrum(lamp.substances));
  if (own > 0.5) return null;
  const better = tubes
    .map((tube) => ({ tube, share: listedShare(stated, tube) }))
    .reduce((best, entry) => (entry.share > best.share ? entry : best));
  if (better.share < 0.8) return null;
  const message = `Most of the stated wavelengths are not in the line table of ${lamp.name} but in that of ${better.tube.substance}: is the lamp named wrongly in the record?`;
  return { code: 'lamp-name', message };
}

function listedShare(stated: readonly number[], { lines }: TubeSpectrum): number {
  const visible = lines.filter((line) => line.prominence > -4);
  const listed = stated.filter((nm) =>
    visible.some((line) => Math.abs(line.wavelengthNm - nm) < SAME_LINE_NM),
  );
  return listed.length / stated.length;
}
