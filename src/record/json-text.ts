/** JSON as people write it: the place of a slip in line and column, double keys, nesting without end. */
import { printParseErrorCode, visit } from 'jsonc-parser';
import { printable, quoteText } from '../angle/quote-text.ts';
import { placeOf, type RecordProblem } from './explain-issues.ts';

export type JsonResult =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly problems: readonly RecordProblem[] };

const deepestNesting = 32;
const mostEntries = 200_000;
const mostBlanks = 100_000;
const mostListed = 100;

/** Reads JSON text; a key that stands twice in one object is a problem, because one of the two would be lost. */
export function readJson(text: string): JsonResult {
  if (text.trim() === '') return failed('', 'the file is empty; a bench record is a JSON object { ... }');
  const oversize = oversized(text);
  if (oversize !== null) return failed('', oversize);
  const problems = syntaxProblems(text);
  if (problems.length > 0) return { ok: false, problems };
  try {
    return { ok: true, value: JSON.parse(text) as unknown };
  } catch {
    return failed('', 'it is not JSON');
  }
}

const failed = (place: string, message: string): JsonResult => ({
  ok: false,
  problems: [{ place, message }],
});

/** What makes the text too much to read, or null. Looked at before any parser, which would call itself for every level. */
function oversized(text: string): string | null {
  let depth = 0;
  let commas = 0;
  let blanks = 0;
  let inText = false;
  for (let at = 0; at < text.length; at += 1) {
    const character = text[at];
    blanks =
      character === ' ' || character === '\n' || character === '\r' || character === '\t' ? blanks + 1 : 0;
    if (inText) {
      if (character === '\\') at += 1;
      else if (character === '"') inText = false;
    } else if (character === '"') inText = true;
    else if (character === '{' || character === '[') depth += 1;
    else if (character === '}' || character === ']') depth -= 1;
    else if (character === ',') commas += 1;
    if (depth > deepestNesting)
      return `it has more than ${deepestNesting} lists and objects inside each other`;
    if (blanks > mostBlanks) return `it has more than ${mostBlanks} blanks in a row; a bench record has few`;
    if (commas > mostEntries) return `it has more than ${mostEntries} entries; a bench record is far smaller`;
  }
  return null;
}

/** The first slip of syntax (later ones mostly follow from it), or every key that stands twice. */
function syntaxProblems(text: string): RecordProblem[] {
  let slip: RecordProblem | null = null;
  const doubles: RecordProblem[] = [];
  const keysOfOpenObjects: Set<string>[] = [];
  visit(
    text,
    {
      onError: (code, offset, length, line, column) => {
        slip ??= {
          place: `line ${line + 1}, column ${column + 1}`,
          message: slipSentence(printParseErrorCode(code), text, offset, length),
        };
      },
      onObjectBegin: () => {
        keysOfOpenObjects.push(new Set());
      },
      onObjectEnd: () => {
        keysOfOpenObjects.pop();
      },
      onObjectProperty: (key, _offset, _length, line, _column, pathSupplier) => {
        const keys = keysOfOpenObjects.at(-1);
        if (keys?.has(key) && doubles.length < mostListed) {
          const message = `stands twice in the same object (line ${line + 1}); keep one`;
          doubles.push({ place: placeOf([...pathSupplier(), key]), message });
        }
        keys?.add(key);
      },
    },
    { disallowComments: true, allowTrailingComma: false, allowEmptyContent: false },
  );
  return slip === null ? doubles : [slip];
}

const slipSentences: Readonly<Record<string, string>> = {
  InvalidSymbol: 'is no word of JSON; texts need double quotation marks',
  InvalidNumberFormat: 'is not a number as JSON writes them (a point, no comma, no unit)',
  PropertyNameExpected: 'a key in double quotation marks is expected here',
  ValueExpected: 'a value is expected here',
  ColonExpected: 'a colon is expected here',
  CommaExpected: 'a comma is expected here',
  CloseBraceExpected: 'a closing } is expected here',
  CloseBracketExpected: 'a closing ] is expected here',
  EndOfFileExpected: 'the record has ended before this',
  InvalidCommentToken: 'JSON has no comments',
  UnexpectedEndOfComment: 'JSON has no comments',
  UnexpectedEndOfString: 'the closing quotation mark is missing',
  UnexpectedEndOfNumber: 'the number is not complete',
  InvalidUnicode: 'after \\u there must be four hexadecimal digits',
  InvalidEscapeCharacter: 'a backslash cannot be followed by this; for seconds write \\" or ″',
  InvalidCharacter: 'there is a control character in a text',
};

function slipSentence(code: string, text: string, offset: number, length: number): string {
  const sentence = slipSentences[code] ?? 'it is not JSON';
  const there = text.slice(offset, offset + Math.min(length, 40));
  if (offset >= text.length) return `${sentence}, but the file ends`;
  const shown = there.startsWith('"') ? printable(there) : quoteText(there);
  return sentence.startsWith('is ') ? `${shown} ${sentence}` : `${sentence}, not ${shown}`;
}
