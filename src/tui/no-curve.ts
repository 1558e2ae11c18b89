/** Why there is no curve. */
import type { ToldCalibration } from '../analysis/types.ts';
import { ROUNDED_READINGS } from '../words/rounded-readings.ts';

/** What is said of the known lines and does not keep a curve from them. */
const OTHERS: ReadonlySet<string> = new Set(['too-few-known-lines', ROUNDED_READINGS]);

/** The calibration's own reason, where there are known lines enough; null with fewer, and where there is a curve. */
export function whyNoCurve(calibration: ToldCalibration | undefined): string | null {
  if (calibration === undefined || calibration.curve !== null) return null;
  const [reason] = calibration.warnings.filter(({ code }) => !OTHERS.has(code));
  return reason?.message ?? null;
}

/** Its first sentence, where there is little room. */
export function whyNoCurveInShort(calibration: ToldCalibration | undefined): string | null {
  return whyNoCurve(calibration)?.split(SENTENCE_END)[0] ?? null;
}

const SENTENCE_END = /(?<=[.?!]) /;

/** The text without its last sentences, as many as are too much; at the least the first. */
export function leadingSentences(text: string, fits: (text: string) => boolean): string {
  const sentences = text.split(SENTENCE_END);
  while (sentences.length > 1 && !fits(sentences.join(' '))) sentences.pop();
  return sentences.join(' ');
}
