/** Which central image a single reading counts from, where a record has several. */
import { formatAngle } from '../angle/format-angle.ts';
import { apartOrigins, lampOrigin, tubeOrigin } from '../observe/origin.ts';
import type { Bench, UnknownTube } from '../record/bench.ts';

/** Null where all of them stand at one place. `of`: the tube from whose it counts; null: from the record's. */
export function countedFromSentence(bench: Bench, of: UnknownTube | null): string | null {
  const lamp = lampOrigin(bench);
  const others = bench.tubes.filter(
    (tube) => Math.abs(apartOrigins(lamp, tubeOrigin(bench, tube, lamp))) >= bench.leastCount / 2,
  );
  if (others.length === 0) return null;
  const central = of === null ? null : tubeOrigin(bench, of, lamp);
  const fineness = { leastCountArcmin: bench.leastCount, decimal: bench.decimalCircle ?? false };
  if (of !== null && central?.isOwn)
    return `counted from the central image of ${of.label}, ${formatAngle(central.central!.windowsDeg[0]!, fineness)}`;
  const labels = others.map(({ label }) => label);
  const whose =
    of === null ? "the record's central image" : `the record's central image, which ${of.label} shares`;
  const advice = of === null ? `: --tube "${labels[0]}" counts from that` : '';
  return `counted from ${whose}; ${labels.join(' and ')} ${labels.length === 1 ? 'has its' : 'have their'} own${advice}`;
}
