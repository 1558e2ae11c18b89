/** A reading taken apart again into main scale and vernier. */
import { type Circle, vernierDivisions } from './circle.ts';
import { formatAngle } from './format-angle.ts';

export interface VernierReading {
  /** The mark of the main scale below the zero of the vernier, degrees. */
  readonly mainScaleDeg: number;
  /** The vernier tick that meets a mark, counted from 0. */
  readonly tick: number;
  /** Divisions of the vernier. */
  readonly divisions: number;
  /** Reading minus what this tick says, arc-minutes; 0 for a reading in whole steps. */
  readonly offTickArcmin: number;
}

/** Null when the least count does not divide the main scale evenly: then no vernier shows such steps. */
export function vernierReading(degrees: number, circle: Circle): VernierReading | null {
  const divisions = vernierDivisions(circle.scaleDivisionArcmin, circle.leastCountArcmin);
  if (divisions === null) return null;
  const steps = Math.round((degrees * 60) / circle.leastCountArcmin);
  const marks = Math.floor(steps / divisions);
  return {
    mainScaleDeg: (marks * circle.scaleDivisionArcmin) / 60,
    tick: steps - marks * divisions,
    divisions,
    offTickArcmin: degrees * 60 - steps * circle.leastCountArcmin,
  };
}

/** What a tick of the vernier is worth, as engraved: `28'`, `14'30"`, `0.08°`. */
export function tickLabel(tick: number, circle: Circle): string {
  const { leastCountArcmin, decimal } = circle;
  const text = formatAngle((tick * leastCountArcmin) / 60, circle);
  if (decimal) return text;
  const [, minutes = '0', seconds = '0'] = /^\d+°(\d+)'(?:([\d.]+)")?$/.exec(text) ?? [];
  const minutesText = `${Number(minutes)}'`;
  return Number(seconds) === 0 ? minutesText : `${minutesText}${seconds}"`;
}

/** The reading in words, the whole first: `231°58': main scale 231°30', vernier tick 28 of 30 (28')`. */
export function describeVernier(degrees: number, circle: Circle): string {
  const reading = vernierReading(degrees, circle);
  const whole = formatAngle(degrees, circle);
  if (reading === null) return `${whole}; no usual vernier shows such steps`;
  const { tick, divisions, offTickArcmin } = reading;
  const main = formatAngle(reading.mainScaleDeg, { ...circle, leastCountArcmin: circle.scaleDivisionArcmin });
  const label = tickLabel(tick, circle);
  const off = Math.abs(offTickArcmin) / circle.leastCountArcmin;
  const between = off < 0.1 ? '' : `, just ${offTickArcmin > 0 ? 'above' : 'below'} it`;
  return `${whole}: main scale ${main}, vernier tick ${tick} of ${divisions} (${label})${between}`;
}
