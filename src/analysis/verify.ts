/** The instructor's check: do a tube's readings support what they should, and which step is to blame if not? */
import { holdsJust, substancesIn } from '../lines/mixed-lamps.ts';
import { tubes } from '../lines/table.ts';
import { sumOf } from '../numeric/sum.ts';
import type { Bench, UnknownTube, Warning } from '../record/bench.ts';
import { DECIMALS } from '../record/decimal-habit.ts';
import type { Doubt } from '../words/doubt.ts';
import { ROUNDED_READINGS } from '../words/rounded-readings.ts';
import { CONTRADICTED_TO, FEW_READINGS, SUPPORTED_FROM } from './assumptions.ts';
import type { Analysis, Candidate, NextLook, TubeAnalysis } from './types.ts';
import { reasonSentence, rowIsAcceptable, verifyReason } from './verify-reason.ts';

/** `missing`: the key expects it, and nobody handed it in. */
export type Outcome = 'supported' | 'contradicted' | 'insufficient' | 'missing';

export type Blame = Omit<Doubt, 'probability'>;

export interface TubeCheck {
  readonly tube: string;
  readonly expected: string;
  readonly outcome: Outcome;
  /** Probability of the expected tube, together with what this bench cannot tell from it. */
  readonly probability: number | null;
  /** The tube that the readings fit best; null without a ranking. */
  readonly best: string | null;
  /** What the student wrote. */
  readonly answer: string | null;
  /** Whether that is the expected tube; null without an answer. */
  readonly answerAgrees: boolean | null;
  /** Of an exercise: was the answer written before the possible tubes were shown? Null where the record does not say. */
  readonly answerBeforeRanking: boolean | null;
  /** What decides the outcome and what to do about it, in one sentence. */
  readonly reason: string;
  readonly nextLook: NextLook | null;
  readonly observers: readonly string[];
  readonly station: string | null;
  readonly date: string | null;
  /** Lines of the tube that are in the record. */
  readonly lines: number;
  /** Readings of known lines and of this tube that are taken for misread. */
  readonly slips: number;
  readonly blame: readonly Blame[];
}

const allTubes = (): string[] => tubes.map(({ substance }) => substance);

/** The same bench with the expected tube among the tubes that each unknown can be. */
export function benchExpecting(bench: Bench, expectedOf: (tube: UnknownTube) => string | null): Bench {
  const tubes = bench.tubes.map((tube) => {
    const expected = expectedOf(tube);
    if (expected === null) return tube;
    // Mixed lamps are weighed where they are asked for only.
    const shelf = tube.shelf ?? (substancesIn(expected).length > 1 ? allTubes() : null);
    return shelf === null || shelf.includes(expected) ? tube : { ...tube, shelf: [...shelf, expected] };
  });
  return { ...bench, tubes };
}

/**
 * The check of one tube of an analysed bench against the tube name `expected`. `shelf`: the tubes that it can be by the
 * record, before the expected one was added; null: any.
 */
export function verifyTube(
  analysis: Analysis,
  tube: TubeAnalysis,
  expected: string,
  shelf: readonly string[] | null = null,
): TubeCheck {
  const rows = rowsOf(tube, expected);
  const probability = rows.length === 0 ? null : sumOf(rows, (row) => row.probability);
  const row = rows[0] ?? null;
  const outcome = outcomeOf(probability, row, tube);
  const answer = analysis.bench.tubes[tube.tubeIndex]?.answer ?? null;
  const answerAgrees = answer === null ? null : agrees(answer.substance, expected, rows);
  const check = {
    tube: tube.label,
    expected,
    outcome,
    probability,
    best: tube.candidates[0]?.substance ?? null,
    answer: answer?.text ?? null,
    answerAgrees,
    answerBeforeRanking: analysis.bench.tubes[tube.tubeIndex]?.answerBeforeRanking ?? null,
    reason: reasonSentence(verifyReason(analysis, tube, { outcome, probability, row }), expected),
    nextLook: tube.verdict.nextLook,
    ...whoAndWhen(analysis.bench),
    lines: tube.lines.length,
    slips: [...analysis.calibration.lines, ...tube.lines].filter(({ status }) => status === 'slip').length,
  };
  return { ...check, blame: [...blameOf(analysis, tube, check), ...offShelf(tube, expected, shelf)] };
}

/**
 * A tube, or a whole record (`tube` is ""), that was expected and not handed in. `handedIn`: the record was, without
 * that tube.
 */
export function missingCheck(expected: string, tube: string, handedIn: boolean): TubeCheck {
  return {
    tube,
    expected,
    outcome: 'missing',
    probability: null,
    best: null,
    answer: null,
    answerAgrees: null,
    answerBeforeRanking: null,
    reason:
      tube === '' || !handedIn
        ? 'The key expects this record, and it is not among those that were checked.'
        : `The key expects ${tube} in this record, which has no tube of that label.`,
    nextLook: null,
    observers: [],
    station: null,
    date: null,
    lines: 0,
    slips: 0,
    blame: [],
  };
}

function whoAndWhen({ about }: Bench): Pick<TubeCheck, 'observers' | 'station' | 'date'> {
  const texts = (key: string) => [about[key] ?? []].flat().filter((text) => text.trim() !== '');
  const text = (key: string) => (texts(key).length === 0 ? null : texts(key).join(', '));
  return { observers: texts('observers'), station: text('station'), date: text('date') };
}

/** The likeliest row that stands for the expected tube; null where it is not ranked. */
export function expectedRow(tube: TubeAnalysis, expected: string): Candidate | null {
  return rowsOf(tube, expected)[0] ?? null;
}

function rowsOf({ candidates }: TubeAnalysis, expected: string): Candidate[] {
  return candidates.filter((candidate) => means(candidate, expected));
}

/** A row stands for its tube and for all tubes that this bench cannot tell from it. */
const namesOf = ({ substance, indistinguishable }: Candidate): string[] => [substance, ...indistinguishable];

/** One of two gases stands for the mixed lamp that holds them, too. */
function means(candidate: Candidate, substance: string): boolean {
  return namesOf(candidate).some(
    (name) => name === substance || holdsJust(substance, [name, ...candidate.with]),
  );
}

function outcomeOf(probability: number | null, leading: Candidate | null, tube: TubeAnalysis): Outcome {
  if (probability === null || leading === null) return 'insufficient';
  if (probability <= CONTRADICTED_TO) return 'contradicted';
  return probability >= SUPPORTED_FROM && rowIsAcceptable(tube, leading) ? 'supported' : 'insufficient';
}

function agrees(answer: string | null, expected: string, rows: readonly Candidate[]): boolean {
  return answer !== null && (answer === expected || rows.some((row) => namesOf(row).includes(answer)));
}

function blameOf(analysis: Analysis, tube: TubeAnalysis, check: Omit<TubeCheck, 'blame'>): Blame[] {
  const doubts = [...analysis.calibration.doubts, ...tube.doubts].map(
    ({ probability: _, ...blame }) => blame,
  );
  const few = analysis.calibration.curve === null ? noCalibration(analysis) : tooFewReadings(tube, check);
  return [
    ...doubts,
    ...decimals(analysis),
    ...asAWhole(analysis, tube),
    ...few,
    ...answerBlame(analysis.bench, tube, check),
  ];
}

/** Decimal marks with two meanings: all readings of the record hang on how they were taken. */
function decimals({ bench, warnings }: Analysis): Blame[] {
  const step = bench.known.some(({ lines }) => lines.length > 0) ? 'known' : 'unknown';
  return warnings.flatMap(({ code, message }) =>
    code === DECIMALS ? [{ step, index: null, kind: code, message }] : [],
  );
}

/** Readings written down coarser than the instrument reads: those of the known lines, and of this tube; known lines that scatter. */
function asAWhole({ calibration }: Analysis, tube: TubeAnalysis): Blame[] {
  const of = (step: Blame['step'], warnings: readonly Warning[]): Blame[] =>
    warnings.flatMap(({ code, message }) =>
      code === ROUNDED_READINGS || code === 'large-scatter'
        ? [{ step, index: null, kind: code, message }]
        : [],
    );
  // Without a curve all that is said of the known lines is blamed anyway.
  const ofKnown = calibration.curve === null ? [] : of('known', calibration.warnings);
  return [...ofKnown, ...of('unknown', tube.warnings)];
}

/** The key and the record contradict each other: no reading is at fault. */
function offShelf({ label }: TubeAnalysis, expected: string, shelf: readonly string[] | null): Blame[] {
  if (shelf === null || shelf.includes(expected)) return [];
  const message = `The expected ${expected} is not on the shelf of ${label} (${shelf.join(', ')}); it was weighed all the same: check key and shelf.`;
  return [answerFault('expected-not-on-shelf', message)];
}

/** Without a curve it is the known lamp, or the central image, that is at fault, however few the readings. */
function noCalibration({ calibration }: Analysis): Blame[] {
  return calibration.warnings.map(({ code, message }) => ({
    step: code === 'central-missing' ? 'central' : 'known',
    index: null,
    kind: code,
    message,
  }));
}

function tooFewReadings(tube: TubeAnalysis, { outcome }: Pick<TubeCheck, 'outcome'>): Blame[] {
  const readings = tube.lines.filter(({ wavelengthNm }) => wavelengthNm !== null).length;
  if (outcome !== 'insufficient' || readings > FEW_READINGS) return [];
  const count = readings === 0 ? 'No line' : readings === 1 ? 'Only one line' : `Only ${readings} lines`;
  const message =
    tube.lines.length === 0
      ? `No line of ${tube.label} has been read.`
      : `${count} of ${tube.label} could be turned into a wavelength.`;
  return [{ step: 'unknown', index: null, kind: 'too-few-lines', message }];
}

function answerBlame(bench: Bench, tube: TubeAnalysis, check: Omit<TubeCheck, 'blame'>): Blame[] {
  const recorded = bench.tubes[tube.tubeIndex];
  if (recorded === undefined || recorded.answer === null) return [];
  const { text, substance } = recorded.answer;
  const found: Blame[] = [];
  if (substance === null)
    found.push(
      answerFault('answer-not-a-tube', `The answer "${text}" is not the name of a tube in the line table.`),
    );
  else if (check.answerAgrees === false) found.push(wrongConclusion(tube, check, substance));
  if (recorded.ranking === 'after-answer' && recorded.answerBeforeRanking === false)
    found.push(
      answerFault(
        'answer-after-ranking',
        'The answer was written after the possible tubes had been shown, although the exercise keeps them back until then.',
      ),
    );
  return found;
}

const answerFault = (kind: string, message: string): Blame => ({
  step: 'answer',
  index: null,
  kind,
  message,
});

/** An answer other than the expected one: either against the readings, or misled by them. */
function wrongConclusion(
  { candidates: [leading] }: TubeAnalysis,
  { expected, outcome }: Pick<TubeCheck, 'expected' | 'outcome'>,
  answer: string,
): Blame {
  if (outcome === 'supported')
    return answerFault('wrong-conclusion', `The answer ${answer} does not follow from the readings.`);
  if (leading !== undefined && means(leading, answer))
    return answerFault(
      'answer-follows-readings',
      `The answer ${answer} is not the expected ${expected}, but it is what the readings fit best.`,
    );
  return answerFault('wrong-answer', `The answer is ${answer}; ${expected} was expected.`);
}
