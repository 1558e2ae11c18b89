/** `whichgas lines [QUERY]`: the line table. */
import { quoteText } from '../../angle/quote-text.ts';
import { type FoundLine, searchLines } from '../../lines/search.ts';
import { tubes } from '../../lines/table.ts';
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
  if (query === '')
    return tubes.flatMap(({ substance, lines }) => lines.map((line) => ({ substance, line })));
  const search = searchLines(query);
  switch (search.kind) {
    case 'tube':
      return search.lines.map((line) => ({ substance: search.substance, line }));
    case 'spectrum':
      return search.lines.map((line) => ({ substance: search.spectrum, line }));
    case 'colour':
      return search.found;
    case 'wavelength':
      return search.near;
    case 'nothing': {
      const cure = search.suggestions.length === 0 ? '' : `; did you mean ${search.suggestions.join(', ')}?`;
      throw new UserError(`nothing in the line table for ${quoteText(query)}${cure}`);
    }
  }
}
