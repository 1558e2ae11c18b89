/** Readings that fit no line of the leading row and stand where the light of other lamps in the room does. */
import { roomLight } from '../../lines/table.ts';
import { ANNOUNCED, AS_NEAR_AS_LIGHT } from '../assumptions.ts';
import type { Candidate, TubeLine } from '../types.ts';
import type { TubeFinding } from './tube-finding.ts';

type RoomLight = Extract<TubeFinding, { what: 'room-light' }>;

/** One finding for each kind of lamp that is not the tube itself. `lines`: with their wavelengths. */
export function roomLightFindings(candidates: readonly Candidate[], lines: readonly TubeLine[]): RoomLight[] {
  const [lead] = candidates;
  if (!lead || lead.symbol === null || lead.probability < ANNOUNCED) return [];
  if (lead.unexplained.length > lead.matches.length) return [];
  const own = [lead.substance, ...lead.with, ...lead.indistinguishable];
  return roomLight
    .filter(({ substance }) => !own.includes(substance))
    .flatMap(({ from, nm }): RoomLight[] => {
      const readings = lead.unexplained.flatMap((index) => {
        const line = lines.find((each) => each.index === index);
        const wavelengthNm = line?.correctedNm ?? line?.wavelengthNm ?? null;
        const u = line?.correctedUncertaintyNm ?? line?.standardUncertaintyNm ?? null;
        if (wavelengthNm === null || u === null || u > AS_NEAR_AS_LIGHT.mostNm) return [];
        // It reads as another reading does, which has a line of the tube.
        const standsOnLine = lead.matches.some(
          (match) => Math.abs(match.wavelengthNm - wavelengthNm) <= AS_NEAR_AS_LIGHT.sigmas * u,
        );
        if (standsOnLine) return [];
        const near = nm.some((each) => Math.abs(each - wavelengthNm) <= AS_NEAR_AS_LIGHT.sigmas * u);
        return near ? [{ index, wavelengthNm }] : [];
      });
      return readings.length === 0 ? [] : [{ what: 'room-light', from, nm, readings }];
    });
}
