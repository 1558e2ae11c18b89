/** What looks wrong with a calibration, in sentences. */
import { formatAngle } from '../angle/format-angle.ts';
import { MOVED_LAMPS, OTHER_LAMPS } from '../calibrate/assumptions.ts';
import type { CalibrationFinding, CalibrationRemark, CurveChoice } from '../calibrate/findings.ts';
import type { OrdinateUnit } from '../calibrate/types.ts';
import type { Bench, Warning } from '../record/bench.ts';
import { amountText } from './amount-text.ts';
import { centralLost, risingSentence } from './as-scale.ts';
import { centralApartSentence } from './central-text.ts';
import type { Doubt } from './doubt.ts';
import { knownLineSentence } from './known-line.ts';
import { lampMovedSentence } from './lamp-moved.ts';

/** The doubts that a finding is worth; most are one. */
export function tellCalibrationFinding(bench: Bench, finding: CalibrationFinding): Doubt[] {
  switch (finding.what) {
    case 'known-line':
      return knownLineDoubt(bench, finding);
    case 'wrong-lamp': {
      const { name } = bench.known[finding.lampIndex]!;
      const { probability, takenFor } = finding;
      const message = `These are ${takenFor} lines, not ${name}: was the wrong lamp in the holder? Look at the lamp's label, or name the lamp ${takenFor}.`;
      return [{ step: 'known', index: null, kind: 'wrong-lamp', probability, message }];
    }
    case 'lamp-moved': {
      const message = lampMovedSentence(bench, finding);
      return [{ step: 'known', index: null, kind: 'moved-lamp', probability: finding.probability, message }];
    }
    case 'opposite-window': {
      const message =
        'Most known lines lie more than 100° from the central image: was it read in the opposite window (180° off), or in the mirror of the prism? Read the central image again in the window of the lines.';
      return [{ step: 'central', index: null, kind: 'opposite-window', probability: null, message }];
    }
    case 'central-apart': {
      const message = centralApartSentence(bench, finding.found, 'The readings of the central image');
      const { probability } = finding.found;
      return [{ step: 'central', index: null, kind: 'slip', probability, message }];
    }
    case 'central-off-middle': {
      const { probability, readDeg, middleDeg } = finding;
      const [read, middle] = [readDeg, middleDeg].map((direction) =>
        formatAngle(direction, bench.leastCount),
      );
      const message = `The central image was read at ${read}, but the lines on both sides have their middle at ${middle}: one of these readings is wrong. The wavelengths rest on the two sides alone; read the central image again.`;
      return [{ step: 'central', index: null, kind: 'central-misread', probability, message }];
    }
    case 'check-moved':
      return [checkMoved(bench, finding)];
  }
}

function knownLineDoubt(
  bench: Bench,
  { index, finding }: Extract<CalibrationFinding, { what: 'known-line' }>,
): Doubt[] {
  const line = bench.known.flatMap(({ lines }) => lines).find((each) => each.index === index);
  if (line === undefined || !('probability' in finding)) return [];
  const { what: kind, probability } = finding;
  return [{ step: 'known', index, kind, probability, message: knownLineSentence(bench, line, finding) }];
}

const WHAT_MOVED: Record<Bench['method'], string> = {
  central:
    "the table, the slit or the telescope's zero has shifted. Read the central image again for the tube.",
  // A turned table moves both sides alike, and half of the angle between them stays.
  'both-sides':
    'the prism is set otherwise, or one side is misread. Read the known lines again for the tube.',
  scale: 'the scale, the slit or the prism has shifted. Read the known lines again for the tube.',
};

function checkMoved(
  { method }: Bench,
  { probability, checks, shift }: Extract<CalibrationFinding, { what: 'check-moved' }>,
): Doubt {
  const amount = amountText(shift, method === 'scale' ? 'scale' : 'arcmin');
  const message = `The check line${checks > 1 ? 's have' : ' has'} moved by ${amount} since the calibration: ${WHAT_MOVED[method]}`;
  // Only the method that has a central image can be mended by reading it again.
  return method === 'central'
    ? { step: 'central', index: null, kind: 'moved-central', probability, message }
    : { step: 'known', index: null, kind: 'moved', probability, message };
}

/** A remark with its stable code. */
export function tellRemark(bench: Bench, remark: CalibrationRemark): Warning {
  return { code: remark.what, message: remarkSentence(bench, remark) };
}

function remarkSentence(bench: Bench, remark: CalibrationRemark): string {
  switch (remark.what) {
    case 'central-missing':
      return `The reading of the central image is missing: without it no deviation can be computed. Read it and put it under "central". ${centralLost}`;
    case 'too-few-known-lines':
      return `There ${remark.lines === 1 ? 'is one known line' : 'are no known lines'}: a calibration needs two at the least, six or more for a good one.`;
    case 'no-curve':
      return 'No curve can be drawn through the known lines: they read alike, or not in the order of their wavelengths. Look at their wavelengths and readings again.';
    case 'rises-with-wavelength':
      return risingSentence(remark.linesPerMm);
    case 'few-known-lines':
      return `Only ${remark.lines} known lines: the shape of the curve is taken from the catalogue of glasses, and the uncertainties are large for it.`;
    case 'lamp-name':
      return `Most of the stated wavelengths are not in the line table of ${bench.known[remark.lampIndex]!.name} but in that of ${remark.substance}: is the lamp named wrongly in the record?`;
    case 'large-scatter':
      return `The known lines scatter about the curve by ${remark.times.toFixed(0)} times what is usual for this ${bench.method === 'scale' ? 'scale' : 'circle'}: look at the residuals for a wrong name or a misread vernier, and set each line at minimum deviation.${remark.tooManyForMoves ? ` Was the bench moved between two lamps? That is looked for in ${MOVED_LAMPS.mostLamps} lamps and ${OTHER_LAMPS.mostReadings} known lines at the most; a copy of the record with fewer has it looked for.` : ''}`;
  }
}

/** One sentence: why this curve. */
export function choiceSentence(
  { model, leaveOneOutRms, lines, other }: CurveChoice,
  unit: OrdinateUnit,
): string {
  const name = model.charAt(0).toUpperCase() + model.slice(1);
  if (leaveOneOutRms === null)
    return lines < 3
      ? `${name}: ${lines} known lines leave its shape to the catalogue of glasses, and the uncertainties are larger for it.`
      : `${name}: one of the ${lines} known lines alone holds a part of it, so that none can be left out to try it.`;
  const against = other
    ? `; the best other curve, ${other.model}, to ${amountText(other.leaveOneOutRms, unit)}`
    : '';
  return `${name}: a line left out is predicted to ${amountText(leaveOneOutRms, unit)}${against}.`;
}
