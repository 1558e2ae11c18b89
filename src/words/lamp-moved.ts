/** A bench that was moved between two of its known lamps, in words. */
import { NEARLY_SURE } from '../calibrate/assumptions.ts';
import { roundWithUncertainty } from '../numeric/round-uncertainty.ts';
import { knownObservations } from '../observe/origin.ts';
import type { Bench, LampMove } from '../record/bench.ts';
import { percent } from './verdict.ts';

/** What was found, with value and u, and its chance where it is not sure; what was done about it, and what to do. */
export function lampMovedSentence(bench: Bench, move: LampMove, probability: number): string {
  const [earlier, later] = lampsOf(bench, move);
  const chance = probability < NEARLY_SURE ? `, with a chance of ${percent(probability)}` : '';
  const what =
    bench.method === 'scale' ? 'the scale, the slit or the prism' : 'the telescope, the circle or the slit';
  return `The lines of ${later} all read ${amountOf(bench, move)} ${move.shift > 0 ? 'more' : 'less'} than the curve of ${earlier} says${chance}: was ${what} moved before ${later} was read${orMisread(bench, move)}? ${doneAboutIt(bench, move)}`;
}

/** Lamps on different sides of the central image lie apart like that too where that image is misread: each by half of it. */
function orMisread(bench: Bench, { lampIndex }: LampMove): string {
  if (bench.method !== 'central') return '';
  const [earlier, later] = [true, false].map((isEarlier) =>
    knownObservations(bench)
      .filter(({ line }) => line.lampIndex < lampIndex === isEarlier)
      .map(({ observation }) => observation.side),
  );
  const areApart = !earlier!.some((side) => later!.includes(side));
  return areApart ? ', or the central image misread by half as much' : '';
}

function doneAboutIt(bench: Bench, move: LampMove): string {
  const [earlier] = lampsOf(bench, move);
  if (bench.method === 'scale')
    return `The curve is that of the scale as it stands now, without the move in the readings of ${earlier}; read one of them again.`;
  switch (centralReadIn(bench, move)) {
    case 'earlier':
      return `They, and what was read later, are counted from the central image moved by as much${ownCentral(bench)}; read it again.`;
    case 'later':
      return `The central image goes with what was read later: the lines of ${earlier} are counted from it moved back by as much.`;
    case 'both':
      return 'Each lamp is counted from the central image as it then stood.';
  }
}

const ownCentral = ({ tubes }: Bench): string =>
  tubes.some(({ central }) => central !== null) ? ' (tubes with a central image of their own from that)' : '';

/** Where the deviations of a bench that was moved count from: what is to be added to how they count of one that was not. */
export function movedZeroSentence(bench: Bench, move: LampMove): string {
  const [earlier, later] = lampsOf(bench, move);
  const amount = amountOf(bench, move);
  const [up, down] = move.shift > 0 ? ['higher', 'lower'] : ['lower', 'higher'];
  if (bench.method === 'scale')
    return `The bench was moved before ${later} was read: ${amount} ${move.shift > 0 ? 'are added to' : 'are taken off'} the readings of ${earlier}.`;
  return centralReadIn(bench, move) === 'later'
    ? `The bench was moved before ${later} was read: for ${earlier} the central image is taken ${amount} ${down}.`
    : `The bench was moved before ${later} was read: for ${later}, and for tubes without a central image of their own, it is taken ${amount} ${up} than before.`;
}

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

/** The names of those that were read before and after it. */
function lampsOf({ known }: Bench, { lampIndex }: LampMove): readonly [string, string] {
  const names = known.map(({ name }, at) => {
    const isAmbiguous = known.some((other, i) => i !== at && other.name === name);
    return name === '' ? `lamp ${at + 1}` : isAmbiguous ? `${name} (lamp ${at + 1})` : name;
  });
  return [listed(names.slice(0, lampIndex)), listed(names.slice(lampIndex))];
}

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
