/** The name of a page to be written, as a flag says it. */
import { type CommandCall, textOption } from './command.ts';
import { shownName } from './file-failure.ts';
import { UserError } from './user-error.ts';

/** Null where the flag is not given. Throws UserError where the name is none of a page. */
export function pageName(call: CommandCall, option: 'out' | 'sheet' | 'answers'): string | null {
  const name = textOption(call, option);
  if (name !== null && !/\.html?$/i.test(name))
    throw new UserError(`--${option} ${shownName(name)}: the name of the page must end in .html`);
  return name;
}
