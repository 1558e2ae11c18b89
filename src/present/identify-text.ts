/** The identification in plain text: the verdict first, then what it rests on. */
import type { Analysis, Candidate, Match, TubeAnalysis } from '../analysis/types.ts';
import { substancesIn } from '../lines/mixed-lamps.ts';
import { sumOf } from '../numeric/sum.ts';
import type { Bench, Warning } from '../record/bench.ts';
import { nextLookSentence } from '../words/verdict.ts';
import { calibrationSentence, heading, lineMessages, noteBlock } from './calibrate-text.ts';
import { type Emphasis, plain } from './emphasis.ts';
import {
  listedText,
  ordinateText,
  ordinateTitle,
  probabilityText,
  readingsText,
  signedText,
  wavelengthText,
} from './quantity-text.ts';
import { safeShortText, safeText } from './safe-text.ts';
import { bullet, right, textTable, wrapText } from './text-table.ts';

/** Rows of the ranking that are shown; the rest is summed in one line. */
const shownCandidates = 5;
const shownMissing = 3;

/** What `identify` prints for one record, within `pageWidth` columns where words can be broken. */
export function identifyText(
  file: string,
  analysis: Analysis,
  recordWarnings: readonly Warning[],
  emphasis: Emphasis = plain,
): string {
  const { bench, calibration, tubes } = analysis;
  const ofTubes = new Set(tubes.flatMap((tube) => tube.warnings.map(({ message }) => message)));
  const benchWarnings = [...recordWarnings, ...analysis.warnings, ...calibration.warnings].filter(
    ({ message }) => !ofTubes.has(message),
  );
  return [
    heading(file, bench.title, emphasis),
    calibrationSentence(bench, calibration),
    noteBlock('Doubts about the calibration', [...calibration.doubts, ...lineMessages(calibration)]),
    noteBlock('Please note', benchWarnings),
    tubes.length === 0 && 'The record has no unknown tube yet.',
    ...tubes.map((tube) => tubeBlock(bench, tube, emphasis)),
  ]
    .filter(Boolean)
    .join('\n\n');
}

function tubeBlock(bench: Bench, tube: TubeAnalysis, emphasis: Emphasis): string {
  const leading = tube.candidates[0] ?? null;
  const answer = bench.tubes[tube.tubeIndex]?.answer ?? null;
  return [
    emphasis.strong(`${safeShortText(tube.label, 40)}: ${verdictWords(tube)}`),
    wrapText(safeText(tube.verdict.sentence)),
    tube.lines.length === 0 ? '' : readingTable(bench, tube, leading),
    tube.candidates.length === 0 ? '' : rankingTable(tube.candidates),
    tube.reasons.map((reason) => bullet(safeText(reason))).join('\n'),
    wrapText(nextLookSentence(tube.verdict)),
    answer === null ? '' : `Answer in the record: ${safeShortText(answer.text, 40)}.`,
    noteBlock('Doubts', [...tube.doubts, ...lineMessages(tube)]),
    noteBlock('Please note', tube.warnings),
  ]
    .filter(Boolean)
    .join('\n\n');
}

/** `neon, 99.8 %`, `undecided`, `none of the listed tubes`. */
export function verdictWords({ verdict, candidates }: TubeAnalysis): string {
  const leading = candidates[0];
  if (verdict.kind === 'held-back') return 'kept back';
  if (leading === undefined || verdict.kind === 'undecided') return 'undecided';
  const name = verdict.kind === 'unlisted' ? 'none of the listed tubes' : candidateName(leading);
  return `${name}, ${probabilityText(leading.probability)}`;
}

/** The row's name with what cannot be told from it and what is mixed in. */
export function candidateName({ substance, indistinguishable, with: admixtures }: Candidate): string {
  const names = substance === 'unlisted' ? 'something else' : [substance, ...indistinguishable].join(' / ');
  return admixtures.length === 0 ? names : `${names} with ${admixtures.join(', ')}`;
}

/** The difference of the two wavelengths in the row, or why it is not that. */
function differenceText({ residualNm, asRead }: Match): string {
  return asRead ? `(${signedText(residualNm, 1)})` : '(corrected)';
}

const isMixed = ({ substance, with: admixtures }: Candidate): boolean =>
  admixtures.length > 0 || substancesIn(substance).length > 1;

/** In a mixture each line with the gas that shows it. */
function matchText(match: Match, candidate: Candidate): string {
  const whose = isMixed(candidate) ? ` ${match.substance}` : '';
  return `${listedText(match.wavelengthNm)}${whose} ${differenceText(match)}`;
}

/** What was done to the readings that are not compared as they were read. */
function correctedNote({ shift, lines }: TubeAnalysis): string {
  if (shift !== null) return 'corrected: compared with the shift of all readings taken off (see Doubts)';
  const slips = lines.filter(({ status }) => status === 'slip').length;
  return slips > 0
    ? 'corrected: compared as it was probably meant (see Doubts)'
    : 'corrected: compared as it would read without a slip that is possible and not sure';
}

function readingTable(bench: Bench, tube: TubeAnalysis, leading: Candidate | null): string {
  const benchLines = bench.tubes[tube.tubeIndex]?.lines ?? [];
  const rows = tube.lines.map((line) => {
    const read = benchLines.find(({ index }) => index === line.index);
    const match = leading?.matches.find(({ index }) => index === line.index);
    return [
      String(line.index + 1),
      readingsText(read?.texts ?? [], 24),
      ordinateText(line, bench),
      read?.colour ?? '',
      wavelengthText(line.wavelengthNm, line.standardUncertaintyNm) + (line.extrapolated ? ' *' : ''),
      ...(tube.shift ? [wavelengthText(line.correctedNm, line.correctedUncertaintyNm)] : []),
      match === undefined ? '-' : matchText(match, leading!),
      line.status === 'slip' ? 'slip?' : '',
    ];
  });
  const title =
    leading === null || leading.substance === 'unlisted' || isMixed(leading)
      ? 'listed nm'
      : `${leading.substance} nm`;
  const measured = ['measured nm', ...(tube.shift ? ['less the shift'] : []), safeShortText(title, 20), ''];
  return [
    textTable([right('#'), 'reading', right(ordinateTitle(bench)), 'colour', ...measured], rows),
    tube.lines.some(({ extrapolated }) => extrapolated) && '* outside the range of the known lines',
    leading?.matches.some(({ asRead }) => !asRead) && correctedNote(tube),
  ]
    .filter(Boolean)
    .join('\n');
}

function rankingTable(candidates: readonly Candidate[]): string {
  const shown = candidates.slice(0, shownCandidates);
  const rest = candidates.slice(shownCandidates);
  const rows = shown.map((candidate) => [
    safeShortText(candidateName(candidate), 34),
    probabilityText(candidate.probability),
    String(candidate.matches.length),
    String(candidate.unexplained.length),
    candidate.missing
      .slice(0, shownMissing)
      .map(({ wavelengthNm }) => wavelengthNm.toFixed(1))
      .join(' '),
  ]);
  const counts = [right('chance'), right('fit'), right('left over')];
  const table = textTable(['possible tubes', ...counts, 'expected, not read'], rows);
  const restProbability = sumOf(rest, ({ probability }) => probability);
  return rest.length === 0
    ? table
    : `${table}\nthe other ${rest.length} together: ${probabilityText(restProbability)}`;
}
