/** What speaks against a possible tube, in one plain sentence. */
import type { Candidate, TubeIdentification } from '../identify/types.ts';
import { listed } from './listed.ts';

/** So many lines or readings are named. */
const MOST_NAMED = 3;

/** Null for the leading row: "8 of 8 fit - but 462 and 467 nm, xenon's brightest, should have been seen". */
export function reasonAgainstText(
  candidate: Candidate,
  { candidates, lines }: TubeIdentification,
): string | null {
  const { against, substance } = candidate;
  if (against === null) return null;
  const lead = candidates[0]!;
  const fit = fitText(candidate);
  switch (against.what) {
    case 'missing': {
      const named = against.lines.slice(0, MOST_NAMED);
      const whose = candidate.with.length > 0 ? 'their' : `${substance}'s`;
      const bright = named.every(({ brightest }) => brightest) ? `, ${whose} brightest,` : '';
      return `${fit} - but ${nmList(named.map(({ wavelengthNm }) => wavelengthNm))}${bright} should have been seen`;
    }
    case 'unexplained': {
      const nm = wavelengthsOf(against.indexes, lines);
      const more = nm.length - MOST_NAMED;
      const named = `${nmList(nm.slice(0, MOST_NAMED))}${more > 0 ? ` and ${more} more` : ''}`;
      const are = nm.length === 1 ? 'is no line' : 'are no lines';
      return nm.length === 0
        ? fit
        : `${fit} - ${named} ${are} of ${[substance, ...candidate.with].join(' or ')}`;
    }
    case 'off': {
      const { substance: whose, wavelengthNm, residualNm, residualSigma } = against.match;
      const off = `${(wavelengthNm + residualNm).toFixed(1)} nm lies ${Math.abs(residualSigma).toFixed(1)} times its uncertainty from ${whose} ${wavelengthNm.toFixed(1)}`;
      return `${fit} - but not as well: ${off}`;
    }
    case 'misread':
      return `${fit} - but only if ${against.count === 1 ? 'one reading is' : `${against.count} readings are`} misread`;
    case 'shifted':
      return `${fit} - but only if all readings are shifted alike`;
    case 'two-gases':
      return `${fit} - but one gas in a tube is far commoner than two`;
    case 'starting-gas':
      return `${fit} - but ${candidate.with.join(' and ')} alone would explain them nearly as well`;
    case 'room-light':
      return `${fit} - but ${candidate.with.join(' and ')} of the room or of a lamp near by is rare among readings`;
    case 'by-chance':
      return `the lines of ${[lead.substance, ...lead.with].join(' with ')} meet these readings better than chance does`;
    case 'little':
      return lead.symbol === null
        ? `${fit}, by chance or not`
        : `${fit} - nearly as well as with ${lead.substance}`;
  }
}

/** In a list there is room for so many. */
const MOST_IN_SHORT = 2;

/** The same in a few words, for a row of a list: "8 of 8 fit, not seen: 462, 467 nm". Null for the leading row. */
export function reasonInShort(
  candidate: Candidate,
  { lines }: Pick<TubeIdentification, 'lines'>,
): string | null {
  const { against } = candidate;
  if (against === null || against.what === 'by-chance') return null;
  const fit = fitText(candidate);
  const short = (wavelengthsNm: readonly number[]): string =>
    `${wavelengthsNm
      .slice(0, MOST_IN_SHORT)
      .map((nm) => nm.toFixed(0))
      .join(', ')} nm`;
  switch (against.what) {
    case 'missing':
      return `${fit}, not seen: ${short(against.lines.map(({ wavelengthNm }) => wavelengthNm))}`;
    case 'unexplained': {
      const nm = wavelengthsOf(against.indexes, lines);
      return nm.length === 0 ? fit : `${fit}, not ${short(nm)}`;
    }
    case 'off':
      return `${fit}, but not ${short([against.match.wavelengthNm])} so well`;
    case 'misread':
      return `${fit}, if ${against.count} ${against.count === 1 ? 'is' : 'are'} misread`;
    case 'shifted':
      return `${fit}, if all are shifted alike`;
    case 'two-gases':
      return `${fit}, but two gases are rare`;
    case 'starting-gas':
      return `${fit}, ${candidate.with.join(', ')} would do`;
    case 'room-light':
      return `${fit}, but with ${candidate.with.join(', ')} of the room`;
    case 'little':
      return `${fit}, nearly as well`;
  }
}

/** `8 of 9 fit`. */
function fitText({ matches, unexplained }: Candidate): string {
  return `${matches.length} of ${matches.length + unexplained.length} ${matches.length === 1 ? 'fits' : 'fit'}`;
}

function wavelengthsOf(indexes: readonly number[], lines: TubeIdentification['lines']): number[] {
  return indexes.flatMap((index) => lines.find((line) => line.index === index)?.wavelengthNm ?? []);
}

/** `462, 467 and 480.1 nm`: whole nanometres where they tell the lines apart. */
function nmList(wavelengthsNm: readonly number[]): string {
  const whole = wavelengthsNm.map((nm) => nm.toFixed(0));
  const texts =
    new Set(whole).size === whole.length ? whole : [...new Set(wavelengthsNm.map((nm) => nm.toFixed(1)))];
  return `${listed(texts)} nm`;
}
