/**
 * How visible a line is, from what the line table knows of it.
 *
 * A graded line takes its grade, which already contains the eye. Elsewhere the relative intensity is weighed with the
 * eye's sensitivity and compressed by a power, since the brightness of a line is judged by ratios and photographic
 * intensities are rough. The power is common to all spectra, the offset belongs to one spectrum on one scale; both are
 * fitted to the lines that have a grade and an intensity. Grades and intensities are both uncertain, so the power is the
 * ratio of their spreads (reduced major axis; plain least squares would flatten it).
 */
import { logEyeSensitivity } from './eye.ts';
import type { LineRow, SpectrumRows } from './line-file.ts';

/** Prominence of the grades: a grade is taken as a factor of about 3.7 (common practice, no source). */
export const gradeProminence = { strong: 0, medium: -1.3, weak: -2.6 } as const;

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

interface Graded {
  readonly visible: number;
  readonly grade: number;
}

/** The lines that have both a grade and an intensity, one list per spectrum and scale. */
function gradedGroups(spectra: readonly SpectrumRows[]): Map<string, Graded[]> {
  const groups = new Map<string, Graded[]>();
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
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

export interface ProminenceFit {
  /** Prominence = offset of the spectrum and scale + power × ln(intensity × eye sensitivity). */
  readonly power: number;
  readonly offsets: ReadonlyMap<string, number>;
}

/** One power for all (reduced major axis of the deviations from the group means), one offset per spectrum and scale. */
export function fitProminence(spectra: readonly SpectrumRows[]): ProminenceFit {
  const groups = gradedGroups(spectra);
  let visibleSpread = 0;
  let gradeSpread = 0;
  for (const group of groups.values()) {
    const meanVisible = mean(group.map((line) => line.visible));
    const meanGrade = mean(group.map((line) => line.grade));
    for (const line of group) {
      visibleSpread += (line.visible - meanVisible) ** 2;
      gradeSpread += (line.grade - meanGrade) ** 2;
    }
  }
  const power = Math.sqrt(gradeSpread / visibleSpread);
  const offsets = new Map<string, number>();
  for (const [key, group] of groups)
    offsets.set(key, mean(group.map((line) => line.grade - power * line.visible)));
  return { power, offsets };
}

/** Prominence of every row of a spectrum, in row order, before the level that a tube gives the spectrum. */
export function prominences(spectrum: SpectrumRows, fit: ProminenceFit): number[] {
  const visible = spectrum.rows.map((row) => logVisibleIntensity(row, spectrum));
  // Without any graded line the most visible one sets the scale.
  const most = Math.max(...visible.filter((value) => value !== null));
  return spectrum.rows.map((row, index) => {
    if (row.brightness !== undefined) return gradeProminence[row.brightness];
    const value = visible[index] ?? null;
    if (value === null) return spectrum.unmeasuredProminence ?? unmeasured;
    const offset = fit.offsets.get(groupKey(row, spectrum)) ?? -fit.power * most;
    const limit = spectrum.gradedComplete === true ? fainterThanWeak : brightest;
    return Math.min(offset + fit.power * value, limit);
  });
}
