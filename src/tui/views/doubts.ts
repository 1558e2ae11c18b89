/** What is doubtful about the known lines, in whole sentences, with the keys that answer it. */
import type { Analysis, ToldCalibrationLine } from '../../analysis/types.ts';
import { DECIMALS } from '../../record/decimal-habit.ts';
import type { Doubt } from '../../words/doubt.ts';
import { ROUNDED_READINGS } from '../../words/rounded-readings.ts';
import { wayTo } from '../action-list.ts';
import { knownResult } from '../known-result.ts';
import { rowAtCursor } from '../rows.ts';
import type { ScreenState } from '../state.ts';
import { messageLines } from './entry.ts';
import { type Area, type Line, line, paragraph, wholeBlocks } from './spans.ts';
import type { Look } from './theme.ts';

/** The keys for what the sentence calls confirming: that is the record's word. */
const NAMED_FOR_NEIGHBOUR = `${wayTo('confirm')} keeps it, ${wayTo('which-line')} changes it.`;

/** The sentence at the line itself: the keys act there. Null where nothing is doubtful. */
export function doubtAtLine(
  { index, message }: ToldCalibrationLine,
  doubts: readonly Doubt[],
): string | null {
  if (message === null) return null;
  return isNeighbour(index, doubts) ? `${message} ${NAMED_FOR_NEIGHBOUR}` : message;
}

/** Index of the known line at the cursor when what is doubtful about it stands below the list; null otherwise. */
export function saidBelow(state: ScreenState, look: Look): number | null {
  const row = rowAtCursor(state);
  const isSaid = row?.kind === 'line' && state.history.place.stage === 'lamp';
  if (!isSaid || messageLines({ state, width: 80, height: 1, look }).length > 0) return null;
  return knownResult(row.line, state)?.index ?? null;
}

/**
 * As many doubts as have room, each whole; of those that have none their number is said.
 * @param except index of a known line whose doubt is said elsewhere
 * @param together so many names can be put right together
 */
export function doubtLines(
  { bench, calibration, warnings }: Analysis,
  { width, height, look }: Omit<Area, 'state'>,
  except: number | null = null,
  together = 0,
): readonly Line[] {
  const { lines, doubts } = calibration;
  // What a person set aside is no doubt of the program's.
  const told = new Set(
    bench.known.flatMap((lamp) => lamp.lines.flatMap(({ index, use }) => (use ? [] : [index]))),
  );
  if (except !== null) told.add(except);
  // What is said of all lines of a lamp is said of each.
  const elsewhere = lines.find(({ index }) => index === except)?.message;
  const ofLines = lines.flatMap(({ index, message }) =>
    message === null || message === elsewhere || told.has(index)
      ? []
      : [isNeighbour(index, doubts) ? `${message} On its row ${NAMED_FOR_NEIGHBOUR}` : message],
  );
  const ofBench = doubts.flatMap(({ message }) =>
    lines.some((each) => each.message === message) ? [] : [message],
  );
  const ofNames =
    together === 0
      ? []
      : [
          `${together} lines read like other lines than they are named for: ${wayTo('names')} puts all right at once.`,
        ];
  // How the readings were written down comes first: all that follows rests on them.
  const ofWriting = [
    ...warnings.filter(({ code }) => code === DECIMALS),
    ...calibration.warnings.filter(({ code }) => code === ROUNDED_READINGS),
  ].map(({ message }) => message);
  const blocks = [...new Set([...ofWriting, ...ofNames, ...ofBench, ...ofLines])].map((sentence) =>
    paragraph(`${look.glyphs.doubt} ${sentence}`, width, 'doubt'),
  );
  return wholeBlocks(blocks, height, (left, shown) => moreLine(left, shown, look));
}

function moreLine(left: number, shown: number, { glyphs }: Look): Line {
  const doubts = `${left} ${shown === 0 ? '' : 'more '}doubt${left === 1 ? '' : 's'}`;
  return line(` ${glyphs.doubt} ${doubts}: go to the line marked ${glyphs.doubt} in the list.`, 'doubt');
}

function isNeighbour(line: number, doubts: readonly Doubt[]): boolean {
  return doubts.some(({ index, step, kind }) => index === line && step === 'known' && kind === 'neighbour');
}
