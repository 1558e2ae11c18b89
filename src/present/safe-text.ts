/**
 * Text that came from a record, a spreadsheet or the command line is hostile until it has passed here.
 */

/** ESC and the 8-bit openers of terminal sequences, with everything that belongs to the sequence. */
const terminalSequences =
  /(?:\x1b[\]PX^_]|[\x9d\x90\x98\x9e\x9f])[^\x07\x1b\x9c]*(?:\x07|\x1b\\|\x9c|$)|(?:\x1b\[|\x9b)[0-?]*[ -/]*[@-~]?|\x1b[ -/]*[0-~]?/g;

/**
 * Controls, invisible format characters (bidirectional overrides among them), half surrogates, private use, and what
 * is drawn as nothing, or in one terminal as nothing and in another not.
 */
const invisible = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Default_Ignorable_Code_Point}]/gu;

/** One line of visible text: terminal sequences and invisible characters removed, line breaks made spaces. */
export function safeText(text: string): string {
  return text
    .replace(/[\t\r\n\u0085\p{Zl}\p{Zp}]+/gu, ' ')
    .replace(terminalSequences, '')
    .replace(invisible, '');
}

/** A longer text cut to `limit` characters with an ellipsis, so that one title cannot fill a screen. */
export function safeShortText(text: string, limit: number): string {
  const characters = [...safeText(text)];
  return characters.length <= limit ? characters.join('') : `${characters.slice(0, limit - 1).join('')}…`;
}

/** An object of these keys of another one, in the order in which they are named: what a JSON output prints of it. */
export function picked<From, Key extends keyof From>(from: From, ...keys: readonly Key[]): Pick<From, Key> {
  return Object.fromEntries(keys.map((key) => [key, from[key]])) as Pick<From, Key>;
}

/** One line of JSON with nothing in it that a terminal would obey. */
export function jsonLine(value: unknown): string {
  return jsonText(JSON.stringify(value));
}

/**
 * JSON text that stays exactly what it means, with the characters that a terminal would obey written as escapes:
 * they only stand inside texts, and JSON itself only escapes those below U+0020.
 */
export function jsonText(json: string): string {
  return json.replace(/[\x7f-\x9f\p{Cf}\p{Zl}\p{Zp}]/gu, (character) =>
    Array.from(
      { length: character.length },
      (_, unit) => `\\u${character.charCodeAt(unit).toString(16).padStart(4, '0')}`,
    ).join(''),
  );
}
