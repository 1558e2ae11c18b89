/** What looked wrong, and what was done about it. */
import type { Analysis, ToldCalibration, TubeAnalysis } from '../../../analysis/types.ts';

import type { Doubt } from '../../../words/doubt.ts';
import { listedText, probabilityText } from '../../quantity-text.ts';
import { blocksOf, list, number, paragraph, type Section, table } from '../document.ts';

/** Said where there is nothing to doubt. */
export const NO_DOUBTS = 'Nothing in the readings looked like a slip or a wrong assignment.';

/** Null where there is nothing to doubt. */
export function doubtsSection({ calibration, tubes, warnings }: Analysis): Section | null {
  const rows = [
    ...calibration.doubts.map((doubt) => doubtRow(doubt, 'known lamp', doneWithKnown(doubt, calibration))),
    ...tubes.flatMap((tube) =>
      tube.doubts.map((doubt) => doubtRow(doubt, tube.label, doneWithUnknown(doubt, tube))),
    ),
  ];
  const notes = [...warnings, ...calibration.warnings, ...tubes.flatMap((tube) => tube.warnings)];
  const blocks = blocksOf(
    rows.length === 0 && paragraph(NO_DOUBTS),
    table(
      'doubts',
      'What looked wrong. The record keeps every reading as typed; a doubt is a possibility that was weighed.',
      ['where', number('#'), 'what', number('chance'), 'what was done'],
      rows,
    ),
    notes.length > 0 && paragraph('Please note:'),
    list([...new Set(notes.map(({ message }) => message))]),
  );
  if (rows.length === 0 && notes.length === 0) return null;
  return { title: 'Doubts, and what was done about them', blocks };
}

function doubtRow(doubt: Doubt, where: string, done: string): string[] {
  return [
    doubt.step === 'central' ? 'central image' : doubt.step === 'answer' ? `${where}, answer` : where,
    doubt.index === null ? '' : String(doubt.index + 1),
    doubt.message,
    doubt.probability === null ? '' : probabilityText(doubt.probability),
    done,
  ];
}

/** The status of the line says what the computation did with it. */
function doneWithKnown({ index, kind }: Doubt, { lines }: ToldCalibration): string {
  if (kind === 'wrong-lamp') return 'used as lines of the likelier lamp';
  if (kind === 'moved-lamp') return 'used with the move taken off; the readings stay as typed';
  const line = lines.find((candidate) => candidate.index === index);
  switch (line?.status) {
    case 'reassigned':
      return `used as ${listedText(line.wavelengthNm)} nm`;
    case 'slip':
      return 'used with the slip undone; the reading stays as typed';
    case 'set-aside':
      return 'set aside';
    default:
      return 'kept as written';
  }
}

function doneWithUnknown({ index, step }: Doubt, { lines }: TubeAnalysis): string {
  if (step === 'answer') return 'left to the observer';
  const line = lines.find((candidate) => candidate.index === index);
  if (line === undefined) return 'kept; weighed with the alternative';
  return line.status === 'slip' ? 'weighed as read and with the slip undone' : 'kept as written';
}
