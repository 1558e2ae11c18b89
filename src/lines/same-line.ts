/** When two wavelengths mean one line of a table, asked by everyone who must know. */

/** Tables round, and differ from one another: by less than this, nm (common practice, no source). */
export const SAME_LINE_NM = 0.3;

/** Are two wavelengths, as read in a table or written down from one, the same line? */
export function isSameLine(firstNm: number, secondNm: number): boolean {
  return Math.abs(firstNm - secondNm) < SAME_LINE_NM;
}

/** The mean of a pair is given this exactly, nm: rounded to a tenth, or drawn a little to the brighter line. */
const PAIR_MEAN_NM = 0.12;

/** Is a wavelength the mean by which a pair read as one line is quoted? */
export function isPairMean(wavelengthNm: number, meanNm: number): boolean {
  return Math.abs(wavelengthNm - meanNm) < PAIR_MEAN_NM;
}
