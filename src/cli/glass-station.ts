/** A bench that has no calibration yet, as an instructor describes it: a catalogue glass, an apex angle, a circle. */
import type { GlassStation } from '../analysis/predict.ts';
import { circleOf } from '../angle/circle.ts';
import { parseSmallAngle } from '../angle/least-count.ts';
import { quoteText } from '../angle/quote-text.ts';
import { type Glass, glasses } from '../calibrate/curve/glasses.ts';
import { madeRecord } from './load-bench.ts';
import { settledReading } from './reading-argument.ts';
import { closestNames } from './suggest.ts';
import { complain } from './terminal.ts';
import { UserError } from './user-error.ts';

export type GlassField = 'glass' | 'apex' | 'central' | 'leastCount';

/** A thinner prism spreads no light worth measuring (common practice, no source). */
const thinnestPrismDeg = 10;

/** The texts mean what the same words mean in a record, and have its bounds. `placeOf`: where a person wrote one. */
export function glassStation(
  texts: Readonly<Record<GlassField, string>> & Pick<GlassStation, 'side'>,
  placeOf: (field: GlassField) => string,
): GlassStation {
  const { leastCount } = texts;
  const glass = glassNamed(texts.glass, placeOf('glass'));
  const [apexAngle, central] = [settledText(texts, 'apex', placeOf), settledText(texts, 'central', placeOf)];
  const instrument = { method: 'central', leastCount, apexAngle };
  const placeIn = (place: string): string => placeOf(fieldOf(place));
  const read = madeRecord(placeOf('glass'), { whichgas: 1, instrument, central: [central] }, placeIn);
  for (const { message } of read.warnings) complain(message.replace(/^(central|instrument)[^:]*/, placeIn));
  const { apexAngle: apex, leastCount: leastCountArcmin, decimalCircle: decimal = false } = read.bench;
  const [setting] = read.bench.central;
  const centralDeg = setting?.kind === 'one-side' ? setting.windows[0] : undefined;
  if (apex === null || centralDeg === undefined) throw new Error('a station without apex angle or central');
  if (apex.valueDeg < thinnestPrismDeg) {
    throw new UserError(
      `${placeOf('apex')}: ${quoteText(apexAngle)} is too thin for the prism of a spectrometer, which is mostly near 60°`,
    );
  }
  const circle = { centralDeg, leastCountArcmin, decimal, side: texts.side };
  return { glass, apexAngleDeg: apex.valueDeg, ...circle };
}

/** A number with a decimal mark is never taken silently, nor where two habits can have written it. */
function settledText(
  texts: Readonly<Record<GlassField, string>>,
  field: 'apex' | 'central',
  placeOf: (field: GlassField) => string,
): string {
  const leastCount = parseSmallAngle(texts.leastCount);
  // A wrong one is refused where the record is read.
  if (!leastCount.ok) return texts[field];
  const circle = circleOf(leastCount.arcmin, leastCount.decimal ? { decimal: true } : {});
  const settled = settledReading(
    texts[field],
    circle,
    (sentence) => complain(`${placeOf(field)}: ${sentence}`),
    (sentence) => {
      throw new UserError(`${placeOf(field)}: ${sentence}`);
    },
  );
  return String(settled);
}

/** The sentence for a prism through which some line does not pass. */
export function noLight({ glass }: Pick<GlassStation, 'glass'>, apex: string, place: string): UserError {
  return new UserError(
    `${place}: light does not pass a ${glass.name} prism of ${quoteText(apex)}; 60° is usual`,
  );
}

function fieldOf(place: string): GlassField {
  if (place.startsWith('instrument.leastCount')) return 'leastCount';
  return place.startsWith('instrument.apexAngle') ? 'apex' : 'central';
}

function glassNamed(name: string, place: string): Glass {
  const plainName = (text: string) => text.replaceAll(/[\s-]/g, '').toUpperCase();
  const glass = glasses.find((each) => plainName(each.name) === plainName(name));
  if (glass !== undefined) return glass;
  const names = glasses.map((each) => each.name);
  const [closest] = closestNames(name, names);
  const cure = closest === undefined ? `it has ${names.join(', ')}` : `did you mean ${closest}?`;
  throw new UserError(`${place}: ${quoteText(name)} is not in the catalogue; ${cure}`);
}
