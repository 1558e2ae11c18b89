/** A bench that was moved between two of its known lamps, in words. */
import { formatAngle } from '../angle/format-angle.ts';
import { NEARLY_SURE } from '../calibrate/assumptions.ts';
import type { CalibrationFinding } from '../calibrate/findings.ts';
import { roundWithUncertainty } from '../numeric/round-uncertainty.ts';
import { isMoved, knownObservations, lampOrigin, type Origin } from '../observe/origin.ts';
import type { Bench, LampMove } from '../record/bench.ts';
import { listed } from './listed.ts';
import { percent } from './verdict.ts';

/** What was found, with value and u, and its chance where it is not sure; what was done about it, and what to do. */
export function lampMovedSentence(
  bench: Bench,
  {
    move,
    probability,
    shownBy,
    leftScatter,
  }: Omit<Extract<CalibrationFinding, { what: 'lamp-moved' }>, 'what'>,
): string {
  const [earlier, later] = lampsOf(bench, move);
  const chance = probability < NEARLY_SURE ? `, with a chance of ${percent(probability)}` : '';
  const more =
    leftScatter === null
      ? ''
      : ` One move does not explain it all: the lines still scatter by ${leftScatter.toFixed(0)} times what is usual, so the amount is a mean of several moves or a line is misread.`;
  const what =
    bench.method === 'scale' ? 'the scale, the slit or the prism' : 'the telescope, the circle or the slit';
  return `The lines of ${later} all read ${amountOf(bench, move)} ${move.shift > 0 ? 'more' : 'less'} than the curve of ${earlier} says${chance}: was ${what} moved before ${wereRead(bench, move)}${putBack(move)}${orMisread(bench, move)}? ${doneAboutIt(bench, move, shownBy)}${more}`;
}

/** Lamps on different sides of the central image lie apart like that too where that image is misread: each by half of it. */
function orMisread(bench: Bench, move: LampMove): string {
  if (bench.method !== 'central') return '';
  const [earlier, later] = [true, false].map((isEarlier) =>
    knownObservations(bench)
      .filter(({ line }) => !isMoved(move, line.lampIndex) === isEarlier)
      .map(({ observation }) => observation.side),
  );
  const areApart = !earlier!.some((side) => later!.includes(side));
  return areApart ? ', or the central image misread by half as much' : '';
}

function doneAboutIt(bench: Bench, move: LampMove, shownBy: readonly number[]): string {
  const [earlier] = lampsOf(bench, move);
  if (bench.method === 'scale')
    return `The curve is that of the scale as it stands now: as much ${onScaleNow(bench, move, 'is')}; read one of them again.`;
  const shown = listed(shownBy.map((at) => bench.tubes[at]!.label));
  switch (centralReadIn(bench, move)) {
    case 'earlier':
      return `They${move.until === undefined ? ', and what was read later,' : ''} are counted from the central image moved by as much${shown === '' ? whenRead(bench, move) : `, where that of ${shown} stands.`}`;
    case 'later':
      return `The central image goes with ${move.until === undefined ? 'what was read later' : 'them'}${shown === '' ? '' : `, as that of ${shown} does`}: the lines of ${earlier} are counted from it moved back by as much.`;
    case 'both':
      return 'Each lamp is counted from the central image as it then stood.';
  }
}

/** Where no tube has a central image of its own nothing says when that of the lamps was read. */
const whenRead = ({ tubes }: Bench, { until }: LampMove): string =>
  tubes.some(({ central }) => central !== null)
    ? ', tubes with a central image of their own from that.'
    : `: read it again for the tube. If it was read ${until === undefined ? 'only after the move' : 'while the bench stood so'}, all deviations are off by as much, though no wavelength that counts from it.`;

/**
 * What the deviations of each lamp and tube count from on a bench that was moved: beside how they count of one that was
 * not. Null for what was moved on another day, whose lamps this bench has not.
 */
export function movedZeroSentence(bench: Bench, move: LampMove): string | null {
  if (move.lampIndex >= bench.known.length) return null;
  const [earlier, later] = lampNames(bench, move);
  const moved = `The bench was moved before ${wereRead(bench, move)}${putBack(move)}`;
  const amount = amountOf(bench, move);
  if (bench.method === 'scale') return `${moved}: ${amount} ${onScaleNow(bench, move, 'are')}.`;
  const own = bench.tubes.filter(({ central }) => central !== null);
  const sharing = bench.tubes.filter(({ central }) => central === null);
  // What shares the central image and was read after all lamps goes with those that the bench then stood for.
  const tubes = sharing.map(({ label }) => label);
  const [still, away] = move.until === undefined ? [[], tubes] : [tubes, []];
  const from = [
    `from ${directionText(bench, lampOrigin(bench, 0))} for ${listed([...earlier, ...still])}`,
    `from ${directionText(bench, lampOrigin(bench, move.lampIndex))} for ${listed([...later, ...away])}`,
    ...(own.length === 0 ? [] : [`from its own for ${listed(own.map(({ label }) => label))}`]),
  ];
  return `${moved}, by ${amount}, and the central image with it: deviations count ${listed(from)}.`;
}

/** `are added to the readings of mercury`: of those whose scale stood otherwise than it does now. */
function onScaleNow(bench: Bench, move: LampMove, verb: 'is' | 'are'): string {
  const isBack = move.until !== undefined;
  const [earlier, later] = lampsOf(bench, move);
  const isAdded = move.shift > 0 !== isBack;
  return `${verb} ${isAdded ? 'added to' : 'taken off'} the readings of ${isBack ? later : earlier}`;
}

/** A tenth of a count finer than it is read: a mean, or carried along by a move. */
function directionText({ leastCount, decimalCircle }: Bench, { central }: Origin): string {
  const fineness = { leastCountArcmin: leastCount / 10, decimal: decimalCircle ?? false };
  return (central?.windowsDeg ?? []).map((direction) => formatAngle(direction, fineness)).join(' / ');
}

/** `mercury was read`, `mercury and hydrogen were read`. */
function wereRead(bench: Bench, move: LampMove): string {
  const count = (move.until ?? bench.known.length) - move.lampIndex;
  return `${lampsOf(bench, move)[1]} ${count === 1 ? 'was' : 'were'} read`;
}

const putBack = ({ until }: LampMove): string => (until === undefined ? '' : ', and put back after it');

/** With which lamps the central image was read. */
function centralReadIn({ central }: Bench, { centralsBefore }: LampMove): 'earlier' | 'later' | 'both' {
  if (centralsBefore === central.length) return 'earlier';
  return centralsBefore === 0 ? 'later' : 'both';
}

/** `8.1' (uncertainty 0.4')`. */
function amountOf({ method }: Bench, { shift, u }: LampMove): string {
  const unit = method === 'scale' ? ' scale units' : "'";
  const rounded = roundWithUncertainty(Math.abs(shift), u);
  return `${rounded.value}${unit} (uncertainty ${rounded.u}${unit})`;
}

/** Those that were read before and after it (and on a bench put back), as text. */
export function lampsOf(bench: Bench, move: LampMove): readonly [string, string] {
  const [earlier, later] = lampNames(bench, move);
  return [listed(earlier), listed(later)];
}

function lampNames({ known }: Bench, move: LampMove): readonly [string[], string[]] {
  const names = known.map(({ name }, at) => {
    const isAmbiguous = known.some((other, i) => i !== at && other.name === name);
    return name === '' ? `lamp ${at + 1}` : isAmbiguous ? `${name} (lamp ${at + 1})` : name;
  });
  return [names.filter((_, at) => !isMoved(move, at)), names.filter((_, at) => isMoved(move, at))];
}
