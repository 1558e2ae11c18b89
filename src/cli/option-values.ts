/** What the values of options mean, where they are more than a text. */
import type { Analysis } from '../analysis/types.ts';
import { type CommandCall, textOption } from './command.ts';
import { decimalNumber } from './decimal-number.ts';
import { shownName, UserError } from './user-error.ts';

/** The name of a page to be written; null where the flag is not given. Throws UserError where the name is none of a page. */
export function pageName(call: CommandCall, option: 'out' | 'sheet' | 'answers'): string | null {
  const name = textOption(call, option);
  if (name !== null && !/\.html?$/i.test(name))
    throw new UserError(`--${option} ${shownName(name)}: the name of the page must end in .html`);
  return name;
}

/** The name of a record to be written with `--out`; null where it is not given. Throws UserError where it is none of a record. */
export function recordName(call: CommandCall): string | null {
  const out = textOption(call, 'out');
  if (out !== null && !out.toLowerCase().endsWith('.json'))
    throw new UserError(`--out ${shownName(out)}: the name of a record must end in .json`);
  return out;
}

/** A prism on a laboratory bench, mm. */
const LONGEST_MM = 1000;

/** `--base 40`: the base of the prism, for its resolving power, mm; null where it is not given. */
export function baseLengthMm(call: CommandCall): number | null {
  const text = textOption(call, 'base');
  if (text === null) return null;
  const mm = decimalNumber(text.replace(/\s*mm$/i, ''));
  if (mm !== null && mm > 0 && mm <= LONGEST_MM) return mm;
  throw new UserError(`--base ${shownName(text)}: the base of the prism is its length in mm, such as 40`);
}

/** One sentence where a base is given and nothing can be made of it; null otherwise. */
export function unusedBase(baseMm: number | null, { bench, calibration }: Analysis): string | null {
  if (baseMm === null || calibration.indices !== null) return null;
  const why =
    bench.method === 'scale'
      ? 'on a scale there is no dispersion of the prism to be had'
      : bench.apexAngle === null
        ? 'the record has no apex angle of the prism'
        : 'no index of the prism can be had';
  return `--base is not used: ${why}, and without it no resolving power`;
}
