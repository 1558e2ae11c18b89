/** The shift that all readings of a tube share against the calibration, as one assumption understands the bench. */
import { sum, sumOf } from '../../numeric/sum.ts';
import { FEWEST_MATCHED, MOST_PLACES, SIGNIFICANT_SHIFT } from '../assumptions.ts';
import type { Assumption, Evidence } from '../evidence/candidate-evidence.ts';
import type { ModelLine } from '../spectrum/expected-lines.ts';

/** In the ordinate's unit; `value` is what it adds to every reading, `u` its standard uncertainty. */
export interface CommonShift {
  readonly value: number;
  readonly u: number;
}

/**
 * Null where there is none to speak of. A central image misread says by itself how much it shifts; otherwise it is
 * the mean of readings minus lines, each weighed by its own variance, and `u` has the curve and the central image
 * read anew in it. `matched`: the line of each reading, or null.
 */
export function commonShift(
  evidence: Evidence,
  { likelihoods: { view } }: Assumption,
  matched: readonly (ModelLine | null)[],
): CommonShift | null {
  const pairs = evidence.readings.flatMap((reading, i) => {
    const line = matched[i];
    return line ? [{ off: reading.ordinate - line.ordinate, line, variance: reading.totalVariance }] : [];
  });
  const weights = pairs.map(({ variance }) => 1 / variance);
  const total = sum(weights);
  const further = sumOf(pairs, ({ off }, i) => weights[i]! * off) / total;
  const isMisread = view.explanation === 'central-misread';
  const value = isMisread ? view.shift : view.shift + further;
  const least = Math.sqrt(1 / total + view.offsetVariance);
  // What is small against the rest of its uncertainty is so against all of it: mostly the curve need not be asked.
  if (!isMisread && (pairs.length < FEWEST_MATCHED || Math.abs(value) < SIGNIFICANT_SHIFT * least))
    return null;
  const most = Math.min(pairs.length, MOST_PLACES);
  const places = Array.from({ length: most }, (_, i) => {
    return pairs[Math.floor((i * pairs.length) / most)]!.line.wavelengthNm;
  });
  const curveVariance =
    sumOf(places, (first) => sumOf(places, (second) => view.curve.covariance(first, second))) / most ** 2;
  const u = Math.sqrt(1 / total + curveVariance + view.offsetVariance);
  if (isMisread) return { value, u: Number.isFinite(u) ? u : Math.sqrt(view.offsetVariance) };
  return Math.abs(value) < SIGNIFICANT_SHIFT * u ? null : { value, u };
}
