/** `whichgas schema`: the JSON Schema of the bench record. */
import { quoteText } from '../../angle/quote-text.ts';
import { recordJsonSchema } from '../../record/json-schema.ts';
import { type CommandCall, switchOption } from '../command.ts';
import { print, printJson } from '../terminal.ts';
import { type ExitCode, exitCode, UserError } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  if (call.words.length > 0)
    throw new UserError(`schema takes no argument, but was given ${quoteText(call.words[0]!)}`);
  if (switchOption(call, 'json')) printJson(recordJsonSchema());
  else print(JSON.stringify(recordJsonSchema(), null, 2));
  return exitCode.done;
}
