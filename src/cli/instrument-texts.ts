/** The instrument as it is named in flags or in the cells of a table. */
import { parseSmallAngle } from '../angle/least-count.ts';
import { quoteText } from '../angle/quote-text.ts';
import { type Method, methods } from '../record/bench.ts';
import { decimalNumber } from './decimal-number.ts';
import { UserError } from './user-error.ts';

export type InstrumentField = 'method' | 'windows' | 'leastCount';

/**
 * What a record's `instrument` says of method, windows and least count; `texts`: as written, null where nothing is.
 * Throws UserError. `placeOf`: where a person wrote it.
 */
export function instrumentOf(
  texts: Readonly<Record<InstrumentField, string | null>>,
  placeOf: (field: InstrumentField) => string,
) {
  const written = (texts.method ?? 'central').trim().toLowerCase().replaceAll(' ', '-');
  const method = methods.find((each) => each === written);
  if (method === undefined) throw new UserError(`${placeOf('method')} must be one of ${methods.join(', ')}`);
  const windows = texts.windows ?? '1';
  if (windows !== '1' && windows !== '2') throw new UserError(`${placeOf('windows')} must be 1 or 2`);
  return {
    method,
    leastCount: leastCountOf(texts.leastCount, method, placeOf('leastCount')),
    ...(windows === '2' ? { windows: 2 } : {}),
  };
}

function leastCountOf(text: string | null, method: Method, place: string): string | number {
  if (text === null) throw new UserError(`${place} is missing: the least count of the vernier, such as 1'`);
  if (method !== 'scale') {
    const leastCount = parseSmallAngle(text);
    if (!leastCount.ok) throw new UserError(`${place}: ${leastCount.problem}`);
    return text;
  }
  const units = decimalNumber(text);
  if (units === null || units <= 0)
    throw new UserError(`${place} ${quoteText(text)}: on a scale it is a number of units, such as 0.1`);
  return units;
}
