/** What looks odd about an angle that can be read, given the circle it was read on. */
import type { Circle } from './circle.ts';
import { formatAngle, formatCount } from './format-angle.ts';
import type { AngleParts, OddReading } from './parse-angle.ts';
import { roundingArcmin, type Sexagesimal, termDegrees } from './parse-term.ts';
import { quoteText } from './quote-text.ts';

/** Is a typed number, or an angle in degrees, a multiple of the step, as far as its rounding lets one tell? */
function isMultiple(typed: Sexagesimal | number, stepArcmin: number): boolean {
  const [degrees, rounding] =
    typeof typed === 'number' ? [typed, 0] : [termDegrees(typed), roundingArcmin(typed)];
  const steps = (degrees * 60) / stepArcmin;
  return Math.abs(steps - Math.round(steps)) * stepArcmin <= rounding * 1.001 + 1e-6;
}

/** `sentence` as the message, ended by the question whether `meantDeg` is meant, if a circle has such an angle. */
function odd(code: OddReading['code'], sentence: string, circle: Circle, meantDeg = Infinity): OddReading {
  const suggestion = meantDeg > 360 ? null : formatAngle(meantDeg, circle);
  const question = suggestion === null ? '' : `; did you mean ${suggestion}?`;
  return { code, message: `${sentence}${question}`, suggestion };
}

function finerThanShown(text: string, circle: Circle): OddReading {
  const shows = `the vernier shows (steps of ${formatCount(circle)})`;
  return odd('finer-than-least-count', `${quoteText(text)} is finer than ${shows}`, circle);
}

/** What is odd about an angle that was typed like this. */
export function oddities(text: string, { mainScale, vernier }: AngleParts, circle: Circle): OddReading[] {
  return vernier === null
    ? ofWholeAngle(text, mainScale, circle)
    : ofMainScaleAndVernier(text, mainScale, vernier, circle);
}

function ofWholeAngle(text: string, term: Sexagesimal, circle: Circle): OddReading[] {
  const found: OddReading[] = [];
  const typed = quoteText(text);
  const { degrees, minutes, seconds } = term;
  if (degrees === null) {
    const kind = minutes === null ? 'seconds' : 'minutes';
    found.push(odd('minutes-without-degrees', `${typed} has ${kind} but no degrees`, circle));
  }
  const meantDeg = decimalsAsMinutes(term, circle, circle.leastCountArcmin);
  // `41°35"`: seconds straight after degrees are nearly always minutes with the wrong sign.
  if (degrees !== null && minutes === null && seconds) {
    const sentence = `${typed} has seconds and no minutes`;
    found.push(odd('seconds-for-minutes', sentence, circle, degrees + seconds / 60));
  } else if (meantDeg !== null) {
    const sentence = `${typed} is in decimals of a degree, which fits no mark`;
    found.push(odd('decimal-for-minutes', sentence, circle, meantDeg));
  } else if (!isMultiple(term, circle.leastCountArcmin)) found.push(finerThanShown(text, circle));
  return found;
}

/**
 * Degrees of `232.41` on a circle that reads minutes, if that stands for 232°41′: only when 232.41° is no multiple of
 * the step, not even rounded, and 232°41′ is one. Null otherwise.
 */
function decimalsAsMinutes(term: Sexagesimal, circle: Circle, stepArcmin: number): number | null {
  const { degrees, bare, decimals } = term;
  if (circle.decimal || !bare || degrees === null || decimals !== 2) return null;
  const minutes = Math.round((degrees % 1) * 100);
  if (minutes >= 60 || isMultiple(term, stepArcmin) || !isMultiple(minutes / 60, stepArcmin)) return null;
  return Math.floor(degrees) + minutes / 60;
}

function ofMainScaleAndVernier(
  text: string,
  mainScale: Sexagesimal,
  vernier: Sexagesimal,
  circle: Circle,
): OddReading[] {
  const found: OddReading[] = [];
  const typed = quoteText(text);
  const rest = termDegrees(vernier);
  const division = formatCount({ ...circle, leastCountArcmin: circle.scaleDivisionArcmin });
  const meantDeg = decimalsAsMinutes(mainScale, circle, circle.scaleDivisionArcmin);
  if (meantDeg !== null && meantDeg <= 360) {
    const sentence = `${typed}: the main scale part is in decimals of a degree, which fits no mark`;
    found.push(odd('decimal-for-minutes', sentence, circle, meantDeg + rest));
  } else if (!isMultiple(mainScale, circle.scaleDivisionArcmin)) {
    const sentence = `${typed}: the main scale has a mark every ${division}, none at the part before the plus sign`;
    found.push(odd('off-main-scale', sentence, circle));
  }
  const onlySeconds = vernier.seconds !== null && vernier.minutes === null && vernier.degrees === null;
  if (onlySeconds && vernier.seconds > 0 && circle.leastCountArcmin >= 1) {
    const sentence = `${typed} has seconds on a vernier that reads ${formatCount(circle)}`;
    found.push(odd('seconds-for-minutes', sentence, circle, termDegrees(mainScale) + vernier.seconds / 60));
  } else if (rest * 60 > circle.scaleDivisionArcmin + 1e-6) {
    const sentence = `${typed}: the vernier part is larger than one division of the main scale (${division})`;
    found.push(odd('vernier-beyond-division', sentence, circle));
  } else if (!isMultiple(vernier, circle.leastCountArcmin)) found.push(finerThanShown(text, circle));
  return found;
}
