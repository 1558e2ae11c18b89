/** How the known lines of a curve are counted. */
import { isUsedAsRead, type WithStatus } from '../calibrate/known-line-status.ts';

export { isUsedAsRead };

/** `8 of 8 lines`, `7 of 8 lines as read, 1 with its slip undone`: a line set aside is in no curve. */
export function linesInCurve(lines: readonly WithStatus[]): string {
  const asRead = lines.filter(isUsedAsRead).length;
  const undone = lines.filter(({ status }) => status === 'slip').length;
  const many = `${asRead} of ${lines.length} lines`;
  if (undone === 0) return many;
  return `${many} as read, ${undone} with ${undone === 1 ? 'its slip' : 'their slips'} undone`;
}
