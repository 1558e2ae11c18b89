import { type Circle, isDecimalLeastCount } from './circle.ts';
import { wrapDirection } from './wrap.ts';

/** How finely to write: a circle, or a least count in arc-minutes. */
export type Fineness = Pick<Circle, 'leastCountArcmin' | 'decimal'> | number;

function fineness(given: Fineness): Pick<Circle, 'leastCountArcmin' | 'decimal'> {
  return typeof given === 'number' ? { leastCountArcmin: given, decimal: isDecimalLeastCount(given) } : given;
}

/** Digits behind the decimal mark that show a step exactly; at most 6. */
function decimalsOf(step: number): number {
  let decimals = 0;
  while (decimals < 6 && Math.abs(step * 10 ** decimals - Math.round(step * 10 ** decimals)) > 1e-6)
    decimals += 1;
  return decimals;
}

/** An angle in degrees split as the least count asks, its rounding carried; no wrapping, no sign. */
function written(degrees: number, given: Fineness): string {
  const { leastCountArcmin, decimal } = fineness(given);
  if (decimal) return `${degrees.toFixed(decimalsOf(leastCountArcmin / 60))}°`;
  const leastCountArcsec = leastCountArcmin * 60;
  const wholeMinutes = Math.abs(leastCountArcmin - Math.round(leastCountArcmin)) < 1e-9;
  const decimals = wholeMinutes ? 0 : decimalsOf(leastCountArcsec);
  const smallestPerDegree = wholeMinutes ? 60 : 3600 * 10 ** decimals;
  const count = Math.round(degrees * smallestPerDegree);
  const whole = Math.floor(count / smallestPerDegree);
  const rest = count - whole * smallestPerDegree;
  if (wholeMinutes) return `${whole}°${twoDigits(rest, 0)}'`;
  const perMinute = smallestPerDegree / 60;
  const minutes = Math.floor(rest / perMinute);
  const seconds = (rest - minutes * perMinute) / (perMinute / 60);
  return `${whole}°${twoDigits(minutes, 0)}'${twoDigits(seconds, decimals)}"`;
}

const twoDigits = (value: number, decimals: number): string =>
  value.toFixed(decimals).padStart(decimals === 0 ? 2 : 3 + decimals, '0');

/**
 * A reading as it is written at the bench: `231°26'`, `231°26'30"`, `231.43°`. Rounded to the unit that the least
 * count is written in (minutes, seconds, decimals), with the carry, and wrapped into [0, 360).
 */
export function formatAngle(degrees: number, given: Fineness): string {
  const text = written(wrapDirection(degrees), given);
  return text.startsWith('360') ? written(0, given) : text;
}

/** An angle that is not a direction (a deviation, a difference): signed when negative, not wrapped. */
export function formatDeviation(degrees: number, given: Fineness): string {
  const text = written(Math.abs(degrees), given);
  return degrees < 0 && /[1-9]/.test(text) ? `-${text}` : text;
}

/** The least count itself, or another small angle in whole steps: `5'`, `30"`, `0.01°`, `1°`. */
export function formatCount(given: Fineness): string {
  const { leastCountArcmin, decimal } = fineness(given);
  const inDegrees = leastCountArcmin / 60;
  if (decimal || Math.abs(inDegrees - Math.round(inDegrees)) < 1e-9) return `${trimmed(inDegrees)}°`;
  if (Math.abs(leastCountArcmin - Math.round(leastCountArcmin)) < 1e-9)
    return `${trimmed(leastCountArcmin)}'`;
  return `${trimmed(leastCountArcmin * 60)}"`;
}

const trimmed = (value: number): string => String(Number(value.toFixed(6)));
