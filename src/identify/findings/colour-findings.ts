/** Colours noted that do not belong to the lines that the readings are matched with. */
import { colourLogLikelihood } from '../../lines/colour-likelihood.ts';
import { CONTRADICTS, FEWEST_COLOURS } from '../assumptions.ts';
import { matchedLines } from '../evidence/candidate-evidence.ts';
import type { Row } from '../rank/rank.ts';
import type { TubeFinding } from './tube-finding.ts';

/** Found where three colours at least, and half of those noted, contradict the leading row. */
export function colourFindings(lead: Row): TubeFinding[] {
  if (lead.reading === null) return [];
  const { evidence, assumption } = lead.reading;
  const matched = matchedLines(evidence, assumption);
  const noted = evidence.readings.flatMap(({ line }, i) => {
    const wavelengthNm = matched[i]?.wavelengthNm;
    if (line.colour === null || wavelengthNm === undefined) return [];
    return [{ index: line.index, colour: line.colour, wavelengthNm }];
  });
  const contradicting = noted.filter(
    ({ colour, wavelengthNm }) => colourLogLikelihood(colour, wavelengthNm) < CONTRADICTS,
  );
  const { length } = contradicting;
  if (length < FEWEST_COLOURS || length < noted.length / 2) return [];
  return [{ what: 'colours', noted: noted.length, contradicting }];
}
