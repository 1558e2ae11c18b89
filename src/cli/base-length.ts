/** `--base 40`: the base of the prism, for its resolving power. */
import { type CommandCall, textOption } from './command.ts';
import { decimalNumber } from './decimal-number.ts';
import { shownName } from './file-failure.ts';
import { UserError } from './user-error.ts';

/** A prism on a laboratory bench, mm. */
const LONGEST_MM = 1000;

/** In mm; null where it is not given. */
export function baseLengthMm(call: CommandCall): number | null {
  const text = textOption(call, 'base');
  if (text === null) return null;
  const mm = decimalNumber(text.replace(/\s*mm$/i, ''));
  if (mm !== null && mm > 0 && mm <= LONGEST_MM) return mm;
  throw new UserError(`--base ${shownName(text)}: the base of the prism is its length in mm, such as 40`);
}
