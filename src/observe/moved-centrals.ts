/** What the readings of the central image say of a move of the bench between two of its known lamps. */
import { logSum } from '../numeric/log-sum.ts';
import type { Bench, LampMove } from '../record/bench.ts';
import { CENTRAL_READ, MOST_CENTRALS_TO_PART, NOTICED, OPEN_WHEN_READ, PUT_BACK } from './assumptions.ts';
import { moveLogs, moveSize } from './bench-move.ts';
import { apartArcmin, centralImage, centralVariance } from './central-image.ts';
import { type CentralKnowledge, versionsOf } from './central-list.ts';
import { lampOrigin, type Origin, originShift, standingStill, tubeOrigin, withMove } from './origin.ts';

export interface MoveAmongCentrals {
  /** How many of the bench's central readings were most probably made before it. */
  readonly centralsBefore: number;
  /** ln of how much likelier the central readings are with the move than without it. */
  readonly log: number;
  /** The next likeliest, where a tube has a central image of its own by which its readings may decide. */
  readonly otherwise?: NonNullable<LampMove['otherwise']>;
}

/**
 * When the central image was read, before the move or after it: as is usual, unless its readings differ among each
 * other, or from those of the first tube that has its own, as the move would have it. `asked`: so many, whatever is likely.
 */
export function moveAmongCentrals(
  bench: Bench,
  move: Omit<LampMove, 'centralsBefore'>,
  knowledge: CentralKnowledge,
  asked: number | null = null,
): MoveAmongCentrals {
  const count = bench.central.length;
  if (bench.method !== 'central' || count === 0) return { centralsBefore: 0, log: 0 };
  // Of a bench that was put back they were read before the move, or as it stood moved.
  const parts =
    count > MOST_CENTRALS_TO_PART || move.until !== undefined
      ? [count, 0]
      : Array.from({ length: count + 1 }, (_, i) => i);
  const tried = parts.map((centralsBefore) => {
    const chance =
      centralsBefore === count
        ? CENTRAL_READ.first
        : centralsBefore === 0
          ? CENTRAL_READ.last
          : CENTRAL_READ.between / (count - 1);
    const moved = withMove(bench, { ...move, centralsBefore });
    return { centralsBefore, log: Math.log(chance) + centralsLog(moved, knowledge) };
  });
  const log = logSum(tried.map((one) => one.log)) - centralsLog(withMove(bench, null), knowledge);
  if (asked !== null) return { centralsBefore: asked, log };
  const [best, next] = tried.sort((a, b) => b.log - a.log);
  const { centralsBefore } = best!;
  const logOdds = next!.log - best!.log;
  const isOpen = logOdds > Math.log(OPEN_WHEN_READ) && bench.tubes.some(({ central }) => central !== null);
  if (!isOpen) return { centralsBefore, log };
  return { centralsBefore, log, otherwise: { centralsBefore: next!.centralsBefore, logOdds } };
}

/** ln density of the central readings about their direction, and of the first tube's own about the same. */
function centralsLog(bench: Bench, knowledge: CentralKnowledge): number {
  const { moved, central, tubes } = bench;
  const list = moved === undefined ? central : standingStill(central, moved);
  const ofList = logSum(versionsOf(bench, list, 'calibration', knowledge).map(({ log }) => log));
  const now = lampOrigin(bench);
  const own = tubes.flatMap((tube) => (tube.central ? (centralImage(bench, tube.central) ?? []) : []))[0];
  if (own === undefined || now.central === null) return ofList;
  const { settingVariance } = knowledge;
  const logsFrom = ({ central: image, carried }: Origin) => {
    const variance = centralVariance(image!, settingVariance) + centralVariance(own, settingVariance);
    const apart = apartArcmin(image!.windowsDeg, own.windowsDeg);
    return moveLogs(apart, variance + (carried?.u ?? 0) ** 2, moveSize(bench, 0));
  };
  const { still, moved: again } = logsFrom(now);
  const putBack = moved === undefined ? [] : [Math.log(PUT_BACK) + logsFrom(lampOrigin(bench, 0)).still];
  return ofList + logSum([still, again, ...putBack]);
}

/** The tubes, by position, whose own central image stands where the move has it, and not where the first lamp has it. */
export function tubesThatShowTheMove(bench: Bench, settingVariance: number): number[] {
  const standsAt = (lamp: Origin, tube: Origin): boolean => {
    const shift = originShift(lamp, tube, settingVariance);
    return shift !== null && Math.abs(shift.shiftArcmin) <= NOTICED * shift.u + shift.stepArcmin;
  };
  const [first, now] = [lampOrigin(bench, 0), lampOrigin(bench)];
  return bench.tubes.flatMap((tube, at) => {
    const own = tubeOrigin(bench, tube, now);
    return standsAt(now, own) && !standsAt(first, own) ? [at] : [];
  });
}
