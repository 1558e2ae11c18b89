/** What a person should know of the known lines as a whole. */
import { mixedLamps, substancesIn } from '../lines/mixed-lamps.ts';
import { isSameLine } from '../lines/same-line.ts';
import type { TubeSpectrum } from '../lines/spectrum.ts';
import { lampSpectrum, tubes } from '../lines/table.ts';
import { sumOf } from '../numeric/sum.ts';
import type { Origin } from '../observe/origin.ts';
import { usualScatter } from '../observe/setting-scatter.ts';
import type { Bench, KnownLamp } from '../record/bench.ts';
import { FEW_LINES, LAMP_NAME, LARGE_SCATTER } from './assumptions.ts';
import type { CalibrationRemark } from './findings.ts';
import type { RisingDeviations } from './grating.ts';
import { areTooMany } from './moved-lamps.ts';

/** `calibrated`: some explanation of the known lines gave a curve. `rising`: they deviate as those of a grating do. */
export function knownLineRemarks(
  bench: Bench,
  { central }: Origin,
  lines: number,
  calibrated: boolean,
  rising: RisingDeviations | null,
): CalibrationRemark[] {
  const written = sumOf(bench.known, (lamp) => lamp.lines.length);
  if (bench.method === 'central' && central === null && written > 0) return [{ what: 'central-missing' }];
  if (lines < 2) return [{ what: 'too-few-known-lines', lines }];
  const names = bench.known.flatMap((lamp, lampIndex) => misnamedLamp(lamp, lampIndex));
  if (rising !== null) return [...names, { what: 'rises-with-wavelength', ...rising }];
  if (!calibrated) return [...names, { what: 'no-curve' }];
  return lines < FEW_LINES ? [...names, { what: 'few-known-lines', lines }] : names;
}

/** `settingVariance`: of one setting, unit², as the residuals show it. */
export function scatterRemark(bench: Bench, lines: number, settingVariance: number): CalibrationRemark[] {
  const times = Math.sqrt(settingVariance) / usualScatter(bench);
  // A move takes from one side what it adds to the other.
  const mayBeMoved = bench.known.length > 1 && bench.method !== 'both-sides';
  return lines < LARGE_SCATTER.fewest || times < LARGE_SCATTER.times
    ? []
    : [{ what: 'large-scatter', times, tooManyForMoves: mayBeMoved && areTooMany(bench, lines) }];
}

function misnamedLamp(lamp: KnownLamp, lampIndex: number): CalibrationRemark[] {
  const stated = lamp.lines.flatMap(({ statedWavelengthNm }) => statedWavelengthNm ?? []);
  if (lamp.substances.length === 0 || stated.length < LAMP_NAME.fewest) return [];
  const own = listedShare(stated, lampSpectrum(lamp.substances));
  if (own > LAMP_NAME.mostOwn) return [];
  // Of several gases together only where no single one has the lines.
  const names = [...tubes.map(({ substance }) => substance), ...mixedLamps.keys()];
  const better = names
    .map((substance) => ({ substance, share: listedShare(stated, lampSpectrum(substancesIn(substance))) }))
    .reduce((best, entry) => (entry.share > best.share ? entry : best));
  if (better.share < LAMP_NAME.leastOther) return [];
  return [{ what: 'lamp-name', lampIndex, substance: better.substance }];
}

function listedShare(stated: readonly number[], { lines }: TubeSpectrum): number {
  const visible = lines.filter((line) => line.prominence > LAMP_NAME.faintest);
  const listed = stated.filter((nm) => visible.some((line) => isSameLine(line.wavelengthNm, nm)));
  return listed.length / stated.length;
}
