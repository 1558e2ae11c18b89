/** What looks odd about an angle that can be read, given the circle it was read on. */
import type { Circle } from './circle.ts';
import { formatAngle, formatCount } from './format-angle.ts';
import type { AngleParts, OddReading } from './parse-angle.ts';
import { roundingArcmin, type Sexagesimal, termDegrees } from './parse-term.ts';
import { quoteText } from './quote-text.ts';

/** Is the angle a multiple of the step, as far as its rounding (arc-minutes) lets one tell? */
function isMultiple(degrees: number, stepArcmin: number, roundingArcminutes: number): boolean {
  const steps = (degrees * 60) / stepArcmin;
  return Math.abs(steps - Math.round(steps)) * stepArcmin <= roundingArcminutes * 1.001 + 1e-6;
}

function suggest(degrees: number, circle: Circle): OddReading['suggestion'] {
  return degrees > 360 ? null : { degrees, text: formatAngle(degrees, circle) };
}

/** Oddities of an angle typed without a plus sign. */
export function wholeAngleOddities(text: string, term: Sexagesimal, circle: Circle): OddReading[] {
  const odd: OddReading[] = [];
  const degrees = termDegrees(term);
  if (term.degrees === null) {
    const kind = term.minutes === null ? 'seconds' : 'minutes';
    odd.push({
      code: 'minutes-without-degrees',
      message: `${quoteText(text)} has ${kind} but no degrees`,
      suggestion: null,
    });
  }
  const confusion = secondsForMinutes(text, term, circle) ?? decimalForMinutes(text, term, circle);
  if (confusion !== null) odd.push(confusion);
  else if (!isMultiple(degrees, circle.leastCountArcmin, roundingArcmin(term))) {
    odd.push({
      code: 'finer-than-least-count',
      message: `${quoteText(text)} is finer than the vernier shows (steps of ${formatCount(circle)})`,
      suggestion: null,
    });
  }
  return odd;
}

/** `41°35"`: seconds straight after degrees are nearly always minutes with the wrong sign. */
function secondsForMinutes(text: string, term: Sexagesimal, circle: Circle): OddReading | null {
  if (term.degrees === null || term.seconds === null || term.minutes !== null) return null;
  if (term.seconds === 0) return null;
  const suggestion = suggest(term.degrees + term.seconds / 60, circle);
  return {
    code: 'seconds-for-minutes',
    message: `${quoteText(text)} has seconds and no minutes${meant(suggestion)}`,
    suggestion,
  };
}

/**
 * `232.41` on a circle that reads minutes: asked about only when 232.41° is no step of the vernier, not even
 * rounded, and 232°41′ is one.
 */
function decimalForMinutes(
  text: string,
  term: Sexagesimal,
  circle: Circle,
  stepArcmin: number = circle.leastCountArcmin,
): OddReading | null {
  const minutes = minutesBehindPoint(term, circle);
  if (minutes === null || isMultiple(termDegrees(term), stepArcmin, roundingArcmin(term))) return null;
  if (!isMultiple(minutes / 60, stepArcmin, 0)) return null;
  const suggestion = suggest(Math.floor(term.degrees ?? 0) + minutes / 60, circle);
  return {
    code: 'decimal-for-minutes',
    message: `${quoteText(text)} is in decimals of a degree, which fits no mark${meant(suggestion)}`,
    suggestion,
  };
}

function minutesBehindPoint(term: Sexagesimal, circle: Circle): number | null {
  if (circle.decimal || !term.bare || term.degrees === null || term.decimals !== 2) return null;
  const minutes = Math.round((term.degrees % 1) * 100);
  return minutes < 60 ? minutes : null;
}

/** Oddities of main scale plus vernier. */
export function vernierOddities(text: string, parts: AngleParts, circle: Circle): OddReading[] {
  const { mainScale, vernier } = parts;
  if (vernier === null) return [];
  const odd: OddReading[] = [];
  const main = termDegrees(mainScale);
  const rest = termDegrees(vernier);
  const confusion = decimalForMinutes(text, mainScale, circle, circle.scaleDivisionArcmin);
  if (confusion?.suggestion) {
    const suggestion = suggest(confusion.suggestion.degrees + rest, circle);
    odd.push({
      ...confusion,
      message: `${quoteText(text)}: the main scale part is in decimals of a degree, which fits no mark${meant(suggestion)}`,
      suggestion,
    });
  } else if (!isMultiple(main, circle.scaleDivisionArcmin, roundingArcmin(mainScale))) {
    odd.push({
      code: 'off-main-scale',
      message: `${quoteText(text)}: the main scale has a mark every ${formatDivision(circle)}, none at the part before the plus sign`,
      suggestion: null,
    });
  }
  const onlySeconds = vernier.seconds !== null && vernier.minutes === null && vernier.degrees === null;
  if (onlySeconds && vernier.seconds > 0 && circle.leastCountArcmin >= 1) {
    const suggestion = suggest(main + vernier.seconds / 60, circle);
    odd.push({
      code: 'seconds-for-minutes',
      message: `${quoteText(text)} has seconds on a vernier that reads ${formatCount(circle)}${meant(suggestion)}`,
      suggestion,
    });
  } else if (rest * 60 > circle.scaleDivisionArcmin + 1e-6) {
    odd.push({
      code: 'vernier-beyond-division',
      message: `${quoteText(text)}: the vernier part is larger than one division of the main scale (${formatDivision(circle)})`,
      suggestion: null,
    });
  } else if (!isMultiple(rest, circle.leastCountArcmin, roundingArcmin(vernier))) {
    odd.push({
      code: 'finer-than-least-count',
      message: `${quoteText(text)} is finer than the vernier shows (steps of ${formatCount(circle)})`,
      suggestion: null,
    });
  }
  return odd;
}

const formatDivision = (circle: Circle): string =>
  formatCount({ leastCountArcmin: circle.scaleDivisionArcmin, decimal: circle.decimal });

const meant = (suggestion: OddReading['suggestion']): string =>
  suggestion === null ? '' : `; did you mean ${suggestion.text}?`;
