/** Which tube it is: the ranking, the evidence line by line, the picture, and why the runner-up loses. */
import type { Analysis, Candidate, TubeAnalysis } from '../../../analysis/types.ts';
import type { CalibrationCurve } from '../../../calibrate/types.ts';
import { roundWithUncertainty } from '../../../numeric/round-uncertainty.ts';
import type { Bench } from '../../../record/bench.ts';
import { candidateName } from '../../identify-text.ts';
import { listedText, probabilityText, signedText } from '../../quantity-text.ts';
import {
  type Block,
  type Figure,
  heading,
  inCaption,
  list,
  number,
  paragraph,
  type Section,
  table,
} from '../document.ts';
import { MOST_LABELS, stripFigure } from '../figures/strip-figure.ts';

/** Candidates shown one by one; the rest is summed. */
const SHOWN_CANDIDATES = 8;
const SHOWN_MISSING = 5;

export function rankingSection({ bench, calibration, tubes }: Analysis): Section {
  return {
    title: 'Which tube it is',
    blocks:
      tubes.length === 0
        ? [paragraph('The record has no unknown tube yet.')]
        : tubes.flatMap((tube) => tubeBlocks(bench, tube, calibration.curve)),
  };
}

function tubeBlocks(bench: Bench, tube: TubeAnalysis, curve: CalibrationCurve | null): Block[] {
  const leading = tube.candidates[0];
  const listed = tube.candidates.filter(({ substance }) => substance !== 'unlisted');
  const runnerUp = listed[0] === leading ? listed[1] : listed[0];
  const { nextLook } = tube.verdict;
  return [
    heading(tube.label),
    paragraph(tube.verdict.sentence),
    ...rankingTable(tube),
    ...(leading === undefined || leading.substance === 'unlisted'
      ? []
      : evidence(bench, tube, leading, curve)),
    ...(runnerUp === undefined
      ? []
      : [
          heading(`${tube.label}: the runner-up, ${candidateName(runnerUp)}`),
          ...list(tube.reasons),
          ...evidence(bench, tube, runnerUp, curve),
        ]),
    ...(nextLook === null || tube.verdict.sentence.includes(nextLook.reading)
      ? []
      : [
          paragraph(
            `Where to look next: ${nextLook.reading} (${nextLook.wavelengthNm.toFixed(1)} nm); a line there, or none, separates ${nextLook.separates.join(' from ')}.`,
          ),
        ]),
  ];
}

function rankingTable({ label, candidates }: TubeAnalysis): Block[] {
  const best = candidates[0]?.logEvidence ?? 0;
  const rest = candidates.slice(SHOWN_CANDIDATES);
  const rows = candidates
    .slice(0, SHOWN_CANDIDATES)
    .map((candidate) => [
      label,
      candidateName(candidate),
      probabilityText(candidate.probability),
      signedText(candidate.logEvidence - best, 1),
      String(candidate.matches.length),
      String(candidate.unexplained.length),
      missingText(candidate),
    ]);
  const restProbability = rest.reduce((sum, { probability }) => sum + probability, 0);
  if (rest.length > 0) {
    rows.push([label, `the other ${rest.length} together`, probabilityText(restProbability), '', '', '', '']);
  }
  return table(
    'ranking',
    `Possible tubes for ${label}. ln evidence is relative to the leading row. "Expected, not read": lines (nm) that would have been seen with a chance of at least 50 %.`,
    [
      inCaption('tube'),
      'possible tube',
      number('chance'),
      number('ln evidence'),
      number('fit'),
      number('left over'),
      'expected, not read',
    ],
    rows,
  );
}

function missingText(candidate: Candidate): string {
  const { missing } = candidate;
  const shown = missing.slice(0, SHOWN_MISSING).map(({ wavelengthNm }) => listedText(wavelengthNm));
  return missing.length > shown.length
    ? `${shown.join(' ')} and ${missing.length - shown.length} more`
    : shown.join(' ');
}

function evidence(
  bench: Bench,
  tube: TubeAnalysis,
  candidate: Candidate,
  curve: CalibrationCurve | null,
): Block[] {
  const name = candidateName(candidate);
  return [
    ...matchTable(tube, candidate, name),
    ...table(
      'lines not read',
      `Lines of ${name} that were not read, with the chance that they would have been seen.`,
      [inCaption('tube'), inCaption('possible tube'), number('line (nm)'), number('chance seen')],
      candidate.missing.map(({ wavelengthNm, chanceSeen }) => [
        tube.label,
        name,
        listedText(wavelengthNm),
        probabilityText(chanceSeen),
      ]),
    ),
    ...(curve === null || tube.lines.length === 0 ? [] : [strip(bench, tube, candidate, curve)]),
  ];
}

function matchTable(tube: TubeAnalysis, candidate: Candidate, name: string): Block[] {
  const rows = tube.lines.map((line) => {
    const { wavelengthNm, standardUncertaintyNm: u } = line;
    const match = candidate.matches.find(({ index }) => index === line.index);
    const weight = candidate.contributions.find(({ index }) => index === line.index);
    return [
      tube.label,
      name,
      String(line.index + 1),
      ...(wavelengthNm === null || u === null
        ? ['-', '-']
        : [roundWithUncertainty(wavelengthNm, u).value, roundWithUncertainty(wavelengthNm, u).u]),
      match === undefined ? 'no line' : listedText(match.wavelengthNm),
      match === undefined ? '-' : signedText(match.residualNm, 1),
      match === undefined ? '-' : signedText(match.residualSigma, 1),
      weight === undefined ? '-' : signedText(weight.logOdds, 1),
      match === undefined || match.asRead ? '' : 'only with a slip undone',
    ];
  });
  return table(
    'evidence',
    `The readings of ${tube.label} against the lines of ${name}. Difference: measured minus listed. Last column: what each reading says for this tube, as the logarithm of the odds against a reading that could be anything.`,
    [
      inCaption('tube'),
      inCaption('possible tube'),
      number('#'),
      number('measured (nm)'),
      number('u (nm)'),
      number('listed (nm)'),
      number('difference (nm)'),
      number('difference / u'),
      number('ln odds'),
      'remark',
    ],
    rows,
  );
}

function strip(bench: Bench, tube: TubeAnalysis, candidate: Candidate, curve: CalibrationCurve): Figure {
  const name = candidateName(candidate);
  const crowded = tube.lines.length + candidate.missing.length > MOST_LABELS;
  return {
    kind: 'figure',
    caption: `The readings of ${tube.label} on this bench's own scale, against ${name}. Above: number and place of each reading, its pointer, and the difference to the line. In the strip: lines of ${name} (dashed: expected but not read; short: its other visible lines). Below: their wavelengths in nm. An open pointer has no line.${crowded ? ' There is no room to label them all: every second, third ... one is labelled.' : ''}`,
    description: `${candidate.matches.length} of ${tube.lines.length} readings fall on lines of ${name}; expected lines that were not read: ${candidate.missing.length}.`,
    draw: () => stripFigure(bench, tube, candidate, curve),
  };
}
