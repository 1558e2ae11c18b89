/**
 * How visible a line is, from what the line table knows of it.
 *
 * A graded line takes its grade, which already contains the eye. Elsewhere the relative intensity is weighed with the
 * eye's sensitivity and compressed by a power, since the brightness of a line is judged by ratios and photographic
 * intensities are rough. The offset belongs to one spectrum on one scale and is fitted to the lines that have both.
 */
import { logEyeSensitivity } from './eye.ts';
import type { LineRow, SpectrumRows } from './line-file.ts';

/** Prominence of the grades: a grade is taken as a factor of about 3.7 (common practice, no source). */
const gradeProminence = { strong: 0, medium: -1.3, weak: -2.6 } as const;

/**
 * The power, one for all spectra. The lines that have both bound it: least squares of grade on intensity, flattened by the
 * scatter of the intensities, gives 0.21; the ratio of the spreads, which is too steep, gives 0.45.
 */
const compression = 0.35;
/** A line without a grade in a spectrum whose visible lines are all graded is at most this prominent. */
const fainterThanWeak = -3.2;
/** A line of which neither intensity nor brightness is known. */
const unmeasured = -4.5;
/** The most an intensity alone can claim. */
const brightest = 0;

/** Natural logarithm of intensity times eye sensitivity, or null without an intensity. */
function logVisibleIntensity(row: LineRow, spectrum: SpectrumRows): number | null {
  if (row.intensity === undefined) return null;
  // A step of the 0-10 estimates of band heads is itself a factor; e per step is a judgement, no source.
  if (spectrum.intensityScale === 'eye-estimate') return row.intensity + logEyeSensitivity(row.nm);
  return Math.log(row.intensity) + logEyeSensitivity(row.nm);
}

export interface GradedLine {
  /** ln(intensity × eye sensitivity). */
  readonly visible: number;
  /** Prominence of the grade. */
  readonly grade: number;
}

/** The lines that have both a grade and an intensity, one list per spectrum and scale. */
export function gradedGroups(spectra: readonly SpectrumRows[]): Map<string, GradedLine[]> {
  const groups = new Map<string, GradedLine[]>();
  for (const spectrum of spectra) {
    for (const row of spectrum.rows) {
      const visible = logVisibleIntensity(row, spectrum);
      if (visible === null || row.brightness === undefined) continue;
      const key = groupKey(row, spectrum);
      const group = groups.get(key) ?? [];
      group.push({ visible, grade: gradeProminence[row.brightness] });
      groups.set(key, group);
    }
  }
  return groups;
}

const groupKey = (row: LineRow, spectrum: SpectrumRows) =>
  `${spectrum.spectrum}|${row.scale ?? spectrum.intensityScale}`;

/** The offset of every spectrum and scale: mean grade minus mean compressed intensity of its graded lines. */
export function fitOffsets(spectra: readonly SpectrumRows[]): ReadonlyMap<string, number> {
  const offsets = new Map<string, number>();
  for (const [key, group] of gradedGroups(spectra)) {
    const differences = group.map((line) => line.grade - compression * line.visible);
    offsets.set(key, differences.reduce((sum, difference) => sum + difference, 0) / differences.length);
  }
  return offsets;
}

/** Prominence of every row of a spectrum, in row order, before the level that a tube gives the spectrum. */
export function prominences(spectrum: SpectrumRows, offsets: ReadonlyMap<string, number>): number[] {
  const visible = spectrum.rows.map((row) => logVisibleIntensity(row, spectrum));
  // Without any graded line the most visible one sets the scale.
  const most = Math.max(...visible.filter((value) => value !== null));
  return spectrum.rows.map((row, index) => {
    if (row.brightness !== undefined) return gradeProminence[row.brightness];
    const value = visible[index] ?? null;
    if (value === null) return spectrum.unmeasuredProminence ?? unmeasured;
    const offset = offsets.get(groupKey(row, spectrum)) ?? -compression * most;
    const limit = spectrum.gradedComplete === true ? fainterThanWeak : brightest;
    return Math.min(offset + compression * value, limit);
  });
}
