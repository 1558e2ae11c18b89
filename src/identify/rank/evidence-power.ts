/** By how much evidence counts that comes from a model that is not quite true. */
import { READINGS_OUTWEIGHED } from '../assumptions.ts';

/**
 * The power, 1 or less, to which the evidence of each row is raised before rows are compared, priors along with it: errors of
 * what is taken for granted add up with every reading as if they were evidence. α / (α + n) of J. W. Miller, D. B. Dunson,
 * J. Am. Stat. Assoc. 114, 1113 (2019), for the likelihood of n readings, with α = `READINGS_OUTWEIGHED`.
 */
export function evidencePower(readings: number): number {
  return READINGS_OUTWEIGHED / (READINGS_OUTWEIGHED + readings);
}
