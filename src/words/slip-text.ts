/** A misread vernier in words. */
import { formatAngle } from '../angle/format-angle.ts';
import type { ReadingAlternative } from '../observe/slip-hypotheses.ts';
import type { SlipCause } from '../observe/slips.ts';
import type { Bench } from '../record/bench.ts';

/** What happened: `one 30' division of the main scale missed`. */
export function causeText(bench: Bench, cause: SlipCause): string {
  const division = inMinutes(bench.scaleDivisionArcmin ?? 60);
  switch (cause.kind) {
    case 'main-scale':
      return cause.divisions === 1
        ? `one ${division} division of the main scale missed`
        : `two ${division} divisions of the main scale missed`;
    case 'half-division':
      return `half of a ${division} division missed`;
    case 'half-degree':
      return 'half a degree (30 arc-minutes) missed';
    case 'degree':
      return 'one degree missed';
    case 'ten-degrees':
      return 'ten degrees missed';
    case 'minutes-as-seconds':
      return 'minutes written as seconds';
    case 'scale-mark':
      return `${cause.units} scale units missed`;
    case 'one-side':
      return 'the middle between left and right is elsewhere than for the other lines';
    case 'digits':
      return `digits in the wrong order (${cause.written} for ${cause.meant})`;
  }
}

function inMinutes(arcmin: number): string {
  return arcmin >= 60 ? `${arcmin / 60}°` : `${arcmin}'`;
}

/** `229°39' reads like 230°09': one 30' division of the main scale missed? Read it again.` */
export function slipSentence(bench: Bench, slip: ReadingAlternative): string {
  const [read, meant] = readAndMeant(bench, slip);
  const side = slip.part.side === null ? '' : ` on the ${slip.part.side}`;
  return `${read}${side} reads like ${meant}: ${causeText(bench, slip.cause)}? Read it again.`;
}

/** The raw reading as written, and as it should be. */
export function readAndMeant(
  bench: Bench,
  { part, readingCorrection, cause }: ReadingAlternative,
): [string, string] {
  const unit = bench.method === 'scale' ? 1 : 1 / 60;
  // Seconds that the vernier cannot show are what was written, and what is wrong.
  const read =
    cause.kind === 'minutes-as-seconds' ? formatAngle(part.reading, 1 / 60) : rawText(bench, part.reading);
  return [read, rawText(bench, part.reading + unit * readingCorrection)];
}

function rawText(bench: Bench, reading: number): string {
  return bench.method === 'scale'
    ? String(Number(reading.toFixed(6)))
    : formatAngle(reading, bench.leastCount);
}
