/** `whichgas lines [QUERY]`: the line table. */
import { quoteText } from '../../angle/quote-text.ts';
import { type FoundLine, searchLines } from '../../lines/search.ts';
import { lineObject, lineTableText } from '../../present/lines-text.ts';
import { type CommandCall, switchOption } from '../command.ts';
import { print, printJson } from '../terminal.ts';
import { type ExitCode, exitCode, UserError } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const found = findLines(call.words.join(' ').trim());
  if (switchOption(call, 'json')) for (const line of found) printJson(lineObject(line));
  else print(lineTableText(found));
  return exitCode.done;
}

function findLines(query: string): readonly FoundLine[] {
  const search = searchLines(query);
  if ('found' in search) return search.found;
  const cure = search.suggestions.length === 0 ? '' : `; did you mean ${search.suggestions.join(', ')}?`;
  throw new UserError(`nothing in the line table for ${quoteText(query)}${cure}`);
}
