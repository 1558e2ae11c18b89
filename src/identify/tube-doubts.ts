/** What may be wrong with a tube's readings: slips, places where nothing can be seen, a bench that was moved. */
import { formatAngle } from '../angle/format-angle.ts';
import type { BenchState } from '../calibrate/calibrate.ts';
import { centralShift, certainty, leftOutOf, listDoubts } from '../calibrate/central-doubts.ts';
import { slipSentence } from '../calibrate/known-line-report.ts';
import type { CalibrationCurve, Doubt } from '../calibrate/types.ts';
import { isWritten, type Telling } from '../observe/central-hypotheses.ts';
import type { Bench, UnknownTube } from '../record/bench.ts';
import type { BenchView } from './bench/bench-hypothesis.ts';
import { commonShift } from './bench/common-shift.ts';
import type { TubeReadings } from './bench/tube-readings.ts';
import { matchedLines } from './evidence/candidate-evidence.ts';
import type { Row } from './rank/rank.ts';

/**
 * Readings where the curve has no wavelength: far from everything that can be seen on this bench. `shift`: of all
 * readings, where the central image is taken for misread.
 */
export function beyondTheCurve(
  tube: UnknownTube,
  { readings }: TubeReadings,
  curve: CalibrationCurve,
  shift: number,
): Map<number, Doubt> {
  const beyond = readings.filter(({ ordinate }) => curve.wavelengthAt(ordinate - shift, 0) === null);
  return new Map(
    beyond.map(({ line: { index, texts } }) => {
      const message = `${tube.label}, reading ${index + 1}: ${texts.join(', ')} lies beyond everything that can be seen on this bench. Read it again, or was it typed wrongly?`;
      return [index, { step: 'unknown', index, kind: 'beyond-the-curve', probability: 1, message }];
    }),
  );
}

/** Where no reading at all can be seen it is not each reading that is wrong, but what all of them share. */
export function onceForAll(tube: UnknownTube, doubts: readonly Doubt[]): readonly Doubt[] {
  const used = tube.lines.filter((line) => line.use).length;
  if (used < 2 || doubts.filter(({ kind }) => kind === 'beyond-the-curve').length < used) return doubts;
  const message = `${tube.label}: not one of its ${used} readings lies where light can be seen on this bench: is the central image right, and does the calibration belong to these readings?`;
  return [{ step: 'unknown', index: null, kind: 'beyond-the-curve', probability: 1, message }];
}

/** Slips that are likelier than not, over all rows. */
export function unknownSlips(bench: Bench, tube: UnknownTube, rows: readonly Row[]): Map<number, Doubt> {
  const chances = new Map<number, number>();
  for (const row of rows) {
    for (const scene of row.slips?.scenes ?? []) {
      const weight = row.probability * Math.exp(scene.log - (row.slips?.log ?? 0));
      for (const index of scene.slips.keys()) chances.set(index, (chances.get(index) ?? 0) + weight);
    }
  }
  const doubts = new Map<number, Doubt>();
  const lead = rows[0]?.slips?.scenes ?? [];
  for (const [index, probability] of chances) {
    const slip = lead.find((scene) => scene.slips.has(index))?.slips.get(index);
    if (probability < 0.5 || !slip) continue;
    const message = `${tube.label}, reading ${index + 1}: ${slipSentence(bench, slip)}`;
    doubts.set(index, {
      step: 'unknown',
      index,
      kind: 'slip',
      probability: Math.min(1, probability),
      message,
    });
  }
  return doubts;
}

/** A central reading of the tube's own that lies apart from most, and is no part of their mean. */
export function ownCentralDoubts(bench: Bench, tube: UnknownTube, state: BenchState): Doubt[] {
  const own = tube.central ?? [];
  // With a calibration of another day all tubes share the record's own list.
  const isShared = own === bench.central && tube.index > 0;
  if (isShared || leftOutOf(bench, own) === 0) return [];
  return listDoubts(bench, own, state, `${tube.label}: the readings of its central image`);
}

/** The central image read anew differs by more than its uncertainty, or all readings are shifted alike. */
export function movedDoubts(
  bench: Bench,
  tube: UnknownTube,
  state: BenchState,
  rows: readonly Row[],
  day: 'same' | 'another',
): Doubt[] {
  const view = viewOf(rows[0]!);
  const doubt = (kind: string, probability: number, message: string): Doubt => ({
    step: 'central',
    index: null,
    kind,
    probability,
    message: `${tube.label}: ${message}`,
  });
  if (view?.story === 'moved') {
    const { evidence, assumption } = rows[0]!.reading!;
    const message = `all its readings lie about ${commonShift(evidence, assumption, matchedLines(evidence, assumption)).toFixed(0)}' from where the calibration puts the lines: was the bench, the slit or the table moved between lamp and tube? Read ${bench.method === 'central' ? 'the central image again, and ' : ''}a line of the known lamp${bench.method === 'central' ? '' : ' again'}.`;
    return [doubt('moved-central', rows[0]!.probability, message)];
  }
  const shift = centralShift(bench, state, tube.central);
  if (shift === null) return [];
  const central = view?.central ?? null;
  const isMisread = central !== null && !isWritten(central);
  const tellings = isMisread ? central.tellings : [];
  const apart = isMisread ? central.apartArcmin : shift.shiftArcmin;
  // From one day to the next the table is turned; that is no fault.
  const isMoved = day === 'same' && Math.abs(apart) > 4 * shift.u + bench.leastCount;
  const differ = `${Math.abs(apart).toFixed(1)}' (uncertainty ${shift.u.toFixed(1)}')`;
  const moved = isMisread
    ? `even so, its central image differs from the calibration's by ${differ}: the bench was moved between lamp and tube.`
    : `its central image differs from the calibration's by ${differ}: the bench was moved between lamp and tube, or one of the two is misread.`;
  return [
    ...(tellings.length > 0
      ? [doubt('central-misread', misreadChance(rows), misreadSentence(bench, tellings))]
      : []),
    ...(isMoved ? [doubt('moved-central', certainty(apart / shift.u), moved)] : []),
  ];
}

const viewOf = (row: Row): BenchView | null => row.reading?.assumption.passage.view ?? null;

/** Over all rows, each understood as it fits best. */
function misreadChance(rows: readonly Row[]): number {
  const understood = rows.filter((row) => viewOf(row) !== null);
  const total = understood.reduce((sum, { probability }) => sum + probability, 0);
  const misread = understood.filter((row) => viewOf(row)!.story === 'central-misread');
  return Math.min(1, misread.reduce((sum, { probability }) => sum + probability, 0) / total);
}

/** From this part of a story on one telling speaks for it. */
const SPEAKS_ALONE = 0.8;

function misreadSentence(bench: Bench, tellings: readonly Telling[]): string {
  const total = tellings.reduce((sum, { probability }) => sum + probability, 0);
  const [first, second] = tellings;
  const alone = second === undefined || first!.probability >= SPEAKS_ALONE * total;
  const told = alone
    ? misreadText(bench, first!)
    : `either ${misreadText(bench, first!)}, or ${misreadText(bench, second)}`;
  return `its readings fit better if the central image was misread: ${told}. Read the central image again.`;
}

/** So many readings are named; of more the number is said. */
const MOST_NAMED = 2;

function misreadText(bench: Bench, { misread }: Telling): string {
  if (misread.length === 0) return 'none of its readings';
  const text = (deg: number): string => formatAngle(deg, bench.leastCount);
  const named = misread.slice(0, MOST_NAMED).map(({ readBy, readingDeg, mended }) => {
    const whose = readBy === 'tube' ? "the tube's" : "the calibration's";
    const instead = mended ? ` for ${text(mended.readingDeg)} (${mended.words.replace(/ \(.*\)/, '')})` : '';
    return `${whose} ${text(readingDeg)}${instead}`;
  });
  const more = misread.length - named.length;
  return `${named.join(' and ')}${more > 0 ? ` and ${more} more` : ''}`;
}
