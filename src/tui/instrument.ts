/** The instrument as the record's words describe it, as far as typing on it needs. */
import { circleOf } from '../angle/circle.ts';
import { parseSmallAngle } from '../angle/least-count.ts';
import type { ReadingForm as InstrumentShape } from '../record/read-setting.ts';
import type { BenchForm } from './form.ts';

export type { InstrumentShape };

/** Method, windows and circle; a least count that cannot be understood leaves the circle of one minute. */
export function instrumentShape(form: BenchForm): InstrumentShape {
  const { method, leastCount, scaleDivision, windows = 1 } = form.instrument;
  if (method === 'scale') return { method, windows: 1, circle: null };
  const step = parseSmallAngle(String(leastCount));
  const division = scaleDivision === undefined ? null : parseSmallAngle(String(scaleDivision));
  const circle = step.ok
    ? circleOf(step.arcmin, {
        decimal: step.decimal,
        ...(division?.ok ? { scaleDivisionArcmin: division.arcmin } : {}),
      })
    : circleOf(1);
  return { method, windows, circle };
}

/** The deviations have no zero yet. */
export function needsCentral({ instrument, central = [] }: BenchForm): boolean {
  return instrument.method === 'central' && central.length === 0;
}

/** What one reading consists of, in the order in which it is asked for; `central` has one place only. */
export function readingParts(shape: InstrumentShape, central: boolean): readonly string[] {
  const sides = shape.method === 'both-sides' && !central ? ['left', 'right'] : [''];
  const windows = shape.windows === 2 ? ['window A', 'window B'] : [''];
  return sides.flatMap((side) => windows.map((window) => [side, window].filter(Boolean).join(' ')));
}
