/** What may be wrong with a tube's readings: slips, places where nothing can be seen, a bench that was moved. */
import { formatAngle } from '../angle/format-angle.ts';
import type { BenchState } from '../calibrate/calibrate.ts';
import { centralShift, certainty } from '../calibrate/central-doubts.ts';
import type { MisreadCentral } from '../calibrate/central-stories.ts';
import { slipSentence } from '../calibrate/known-line-report.ts';
import type { CalibrationCurve, Doubt } from '../calibrate/types.ts';
import type { Bench, UnknownTube } from '../record/bench.ts';
import { commonShift } from './common-shift.ts';
import { matchedLines } from './evidence.ts';
import type { Row } from './rows.ts';
import type { TubeReadings } from './tube-readings.ts';

/** Readings where the curve has no wavelength: far from everything that can be seen on this bench. */
export function beyondTheCurve(
  tube: UnknownTube,
  { readings }: TubeReadings,
  curve: CalibrationCurve,
): Map<number, Doubt> {
  const beyond = readings.filter(({ ordinate }) => curve.wavelengthAt(ordinate, 0) === null);
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

/** Do two readings of the central image differ by more than their uncertainty? */
function centralsDisagree(bench: Bench, { shiftArcmin, u }: { shiftArcmin: number; u: number }): boolean {
  return Math.abs(shiftArcmin) > 4 * u + bench.leastCount;
}

function misreadSentence(bench: Bench, misread: readonly MisreadCentral[], difference: string): string {
  const text = (deg: number): string => formatAngle(deg, bench.leastCount);
  const each = misread.map(({ readBy, readingDeg, mended }) => {
    const whose = readBy === 'tube' ? 'its own' : "the calibration's";
    const what = mended ? `reads like ${text(mended.readingDeg)}: ${mended.words}` : 'is misread';
    return `${whose} ${text(readingDeg)} ${what}`;
  });
  return `its central image and the calibration's differ by ${difference}, and the readings fit better if ${each.join(', and ')}? Read the central image again.`;
}

/** The central image read anew differs by more than its uncertainty, or all readings are shifted alike. */
export function movedDoubts(
  bench: Bench,
  tube: UnknownTube,
  state: BenchState,
  rows: readonly Row[],
  day: 'same' | 'another',
): Doubt[] {
  const lead = rows[0]!;
  const { story = 'plain', misread = [] } = lead.reading?.assumption.passage.view ?? {};
  const doubt = (kind: string, probability: number, message: string): Doubt[] => [
    { step: 'central', index: null, kind, probability, message: `${tube.label}: ${message}` },
  ];
  if (story === 'moved') {
    const { evidence, assumption } = lead.reading!;
    const message = `all its readings lie about ${commonShift(evidence, assumption, matchedLines(evidence, assumption)).toFixed(0)}' from where the calibration puts the lines: was the bench, the slit or the table moved between lamp and tube? Read ${bench.method === 'central' ? 'the central image again, and ' : ''}a line of the known lamp${bench.method === 'central' ? '' : ' again'}.`;
    return doubt('moved-central', lead.probability, message);
  }
  const shift = centralShift(bench, state, tube.central);
  if (shift === null) return [];
  const difference = `${Math.abs(shift.shiftArcmin).toFixed(1)}'`;
  if (misread.length > 0)
    return doubt('central-misread', lead.probability, misreadSentence(bench, misread, difference));
  if (!centralsDisagree(bench, shift)) return [];
  // From one day to the next the table is turned; that is no fault.
  if (day === 'another') return [];
  const message = `its central image differs from the calibration's by ${difference} (uncertainty ${shift.u.toFixed(1)}'): the bench was moved between lamp and tube, or one of the two is misread.`;
  return doubt('moved-central', certainty(shift.shiftArcmin / shift.u), message);
}
