/** One unknown tube: its readings, wavelengths and lines in one table, the ranking, and why the runner-up loses. */
import type { Analysis, Candidate, TubeAnalysis, TubeLineResult } from '../../../analysis/types.ts';
import { READINGS_OUTWEIGHED } from '../../../identify/assumptions.ts';
import { roundWithUncertainty } from '../../../numeric/round-uncertainty.ts';
import { sumOf } from '../../../numeric/sum.ts';
import type { Bench, UnknownTube } from '../../../record/bench.ts';
import { nextLookSentence } from '../../../words/verdict.ts';
import { candidateName } from '../../identify-text.ts';
import { listedText, ordinateText, ordinateTitle, probabilityText, signedText } from '../../quantity-text.ts';
import {
  type Block,
  blocksOf,
  heading,
  inCaption,
  list,
  number,
  paragraph,
  type Section,
  table,
} from '../document.ts';
import { leadingTube, stripPicture } from './pictures.ts';
import { settingText } from './reading-text.ts';

/** Candidates shown one by one; the rest is summed. */
const SHOWN_CANDIDATES = 5;
const SHOWN_MISSING = 5;
/** A runner-up less likely than this is told in sentences; its lines are of no use to anybody. */
const WORTH_A_TABLE = 0.01;

export function tubeSection({ bench, calibration, tubes }: Analysis, tube: TubeAnalysis): Section {
  const written = bench.tubes[tube.tubeIndex];
  const leading = leadingTube(tube);
  const listed = tube.candidates.filter(({ substance }) => substance !== 'unlisted');
  const runnerUp = (listed[0] === tube.candidates[0] ? listed[1] : listed[0]) ?? null;
  const { curve } = calibration;
  const lookNext = nextLookSentence(tube.verdict);
  const picture =
    curve === null || leading === null || tube === tubes[0] ? [] : stripPicture(bench, tube, leading, curve);
  return {
    title: `The lines of ${tube.label}`,
    blocks: blocksOf(
      lineTable(bench, tube, written),
      picture,
      written !== undefined && paragraph(lookedSentence(bench, written)),
      rankingTable(tube),
      runnerUp && runnerUpBlocks(tube, runnerUp),
      lookNext && paragraph(lookNext),
    ),
  };
}

/** Every reading with its deviation, its wavelength, and what the leading tube has there. */
function lineTable(bench: Bench, tube: TubeAnalysis, written: UnknownTube | undefined): Block[] {
  const leading = leadingTube(tube);
  const name = leading === null ? '' : candidateName(leading);
  const less = tube.shift === null ? '' : ' Less shift: with the shift of all readings taken off.';
  const measured = tube.shift === null ? 'measured' : 'less shift';
  const against =
    leading === null
      ? ''
      : ` Listed: the line of ${name}; diff.: ${measured} minus listed, nm; ln odds: for ${name}, against a reading that could be anything.`;
  return table(
    'lines',
    `Lines of ${tube.label}: readings as typed, wavelengths in standard air. u: standard uncertainty with everything in it, about 95 % of true values lie within ±2u; the difference of two neighbours is known better than either.${less}${against}`,
    [
      inCaption('tube'),
      number('#'),
      'colour',
      'reading',
      number(ordinateTitle(bench)),
      number('λ (nm)'),
      number('u (nm)'),
      number('less shift (nm)'),
      number('its u (nm)'),
      inCaption('possible tube'),
      ...evidenceColumns,
      'remark',
    ],
    tube.lines.map((line) => {
      const source = written?.lines.find(({ index }) => index === line.index);
      const given = rounded(line.wavelengthNm, line.standardUncertaintyNm);
      const corrected = rounded(line.correctedNm, line.correctedUncertaintyNm);
      return [
        tube.label,
        String(line.index + 1),
        source?.colour ?? '-',
        source?.texts.join('; ') ?? '-',
        ordinateText(line, bench),
        given?.value ?? '-',
        given?.u ?? '-',
        corrected?.value ?? '-',
        corrected?.u ?? '-',
        name,
        ...(leading === null ? ['-', '-', '-', '-'] : evidence(leading, line)),
        [
          line.extrapolated && 'outside the known lines',
          line.status === 'slip' && 'slip?',
          leading && tube.shift === null && slipRemark(leading, line),
          source?.use === false && 'left out by the observer',
          source?.brightness,
          source?.note,
        ]
          .filter(Boolean)
          .join('; '),
      ];
    }),
  );
}

function rounded(wavelengthNm: number | null, u: number | null) {
  return wavelengthNm === null || u === null ? null : roundWithUncertainty(wavelengthNm, u);
}

const evidenceColumns = ['listed', 'diff.', 'diff./u', 'ln odds'].map(number);

function evidence({ matches, contributions }: Candidate, { index }: TubeLineResult): string[] {
  const match = matches.find((each) => each.index === index);
  const weight = contributions.find((each) => each.index === index);
  return [
    match === undefined ? 'no line' : listedText(match.wavelengthNm),
    match === undefined ? '-' : signedText(match.residualNm, 1),
    match === undefined ? '-' : signedText(match.residualSigma, 1),
    weight === undefined ? '-' : signedText(weight.logOdds, 1),
  ];
}

function slipRemark({ matches }: Candidate, { index }: TubeLineResult): string {
  return (matches.find((each) => each.index === index)?.asRead ?? true) ? '' : 'only with a slip undone';
}

function lookedSentence(bench: Bench, { central, complete, notSeen }: UnknownTube): string {
  const again = central?.map((setting) => settingText(setting, bench)).join('; ');
  const places = notSeen.map((place) => (place.kind === 'reading' ? place.text : `${place.wavelengthNm} nm`));
  return [
    ...(again === undefined ? [] : [`Central image read again for this tube: ${again}.`]),
    ...(places.length === 0 ? [] : [`Looked, nothing there: ${places.join('; ')}.`]),
    complete
      ? 'The observer states that every line that could be seen is written down.'
      : 'The list of lines is not stated to be complete, so a faint line that is absent says little.',
  ].join(' ');
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
  const restProbability = sumOf(rest, ({ probability }) => probability);
  if (rest.length > 0) {
    rows.push([label, `the other ${rest.length} together`, probabilityText(restProbability), '', '', '', '']);
  }
  return table(
    'ranking',
    `Possible tubes for ${label}. ln evidence: relative to the first; chances follow from ${READINGS_OUTWEIGHED}/(${READINGS_OUTWEIGHED} + n) of it, n readings, because what is assumed of lamps, eyes and hands is not quite true. Expected, not read: lines (nm) with the chance that they would have been seen.`,
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

function missingText({ missing }: Candidate): string {
  const shown = missing
    .slice(0, SHOWN_MISSING)
    .map(({ wavelengthNm, chanceSeen }) => `${listedText(wavelengthNm)} (${probabilityText(chanceSeen)})`)
    .join(', ');
  return missing.length > SHOWN_MISSING ? `${shown} and ${missing.length - SHOWN_MISSING} more` : shown;
}

function runnerUpBlocks(tube: TubeAnalysis, runnerUp: Candidate): Block[] {
  const name = candidateName(runnerUp);
  const captioned = ['tube', 'possible tube'].map(inCaption);
  return blocksOf(
    heading(`The runner-up, ${name}`),
    list(tube.reasons.length > 0 ? tube.reasons : [runnerUp.reasonAgainst ?? []].flat()),
    runnerUp.probability >= WORTH_A_TABLE &&
      table(
        'runner-up',
        `The readings of ${tube.label} against the lines of ${name}.`,
        [...captioned, number('#'), number('λ (nm)'), ...evidenceColumns, 'remark'],
        tube.lines.map((line) => [
          tube.label,
          name,
          String(line.index + 1),
          rounded(line.wavelengthNm, line.standardUncertaintyNm)?.value ?? '-',
          ...evidence(runnerUp, line),
          slipRemark(runnerUp, line),
        ]),
      ),
  );
}
