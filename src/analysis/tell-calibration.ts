/** A calibration as it is told: its data, with a sentence to each finding. */
import { refractiveIndices } from '../calibrate/refractive-index.ts';
import type { Calibration } from '../calibrate/types.ts';
import { once } from '../numeric/remembered.ts';
import type { Bench, Warning } from '../record/bench.ts';
import { choiceSentence, tellCalibrationFinding, tellRemark } from '../words/calibration-findings.ts';
import { indexNote } from '../words/index-text.ts';
import { knownLineSentence } from '../words/known-line.ts';
import type { ToldCalibration, ToldCalibrationLine, ToldIndices } from './types.ts';

/** What a calibration found, told in words, after it `ofWriting`: what is said of how its lines were written down. */
export function tellCalibration(
  bench: Bench,
  found: Calibration,
  ofWriting: readonly Warning[] = [],
): ToldCalibration {
  const { findings, remarks, lines, unit, model, formula, coefficients, rms, settingScatter } = found;
  const written = bench.known.flatMap((lamp) => lamp.lines);
  const indices = once(() => toldIndices(bench, found));
  return {
    unit,
    model,
    formula,
    coefficients,
    rms,
    settingScatter,
    checks: found.checks,
    curve: found.curve,
    curveNow: found.curveNow,
    moved: found.moved,
    hypotheses: found.hypotheses,
    budget: found.budget,
    // What only the calibration's own tables tell is worked out for them.
    get rivals() {
      return found.rivals;
    },
    get hartmann() {
      return found.hartmann;
    },
    get polynomial() {
      return found.polynomial;
    },
    get choice() {
      return found.choice === null ? '' : choiceSentence(found.choice, unit);
    },
    get indices() {
      return indices();
    },
    lines: lines.map(({ finding, ...line }): ToldCalibrationLine => {
      const known = written.find(({ index }) => index === line.index);
      if (!known || (finding === null && line.status !== 'reassigned')) return { ...line, message: null };
      if (finding !== null) return { ...line, message: knownLineSentence(bench, known, finding) };
      // Named anew with all lines of its lamp: what is said of the lamp is said of it.
      const lamp = findings.find((each) => each.what === 'wrong-lamp' && each.lampIndex === known.lampIndex);
      return { ...line, message: lamp ? (tellCalibrationFinding(bench, lamp)[0]?.message ?? null) : null };
    }),
    doubts: findings.flatMap((finding) => tellCalibrationFinding(bench, finding)),
    warnings: [...remarks.map((remark) => tellRemark(bench, remark)), ...ofWriting],
  };
}

function toldIndices(bench: Bench, found: Calibration): ToldIndices | null {
  // A grating has none, whatever apex angle the record names.
  const isGrating = found.remarks.some(
    (remark) => remark.what === 'rises-with-wavelength' && remark.linesPerMm !== null,
  );
  const indices = isGrating ? null : refractiveIndices(bench, found);
  return indices && { ...indices, notes: indices.notes.map(indexNote) };
}
