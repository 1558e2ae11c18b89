/** Texts that try to act in the program that shows them, and what shows that one got through. */
import fc from 'fast-check';
import { most } from '../../src/record/limits.ts';

export const attacks: readonly string[] = [
  '\x1b[2J\x1b[31mred',
  '\x1b]0;title\x07',
  '\x1b]8;;http://example.org\x1b\\link\x1b]8;;\x1b\\',
  '\x9b2J',
  '\x9d0;title\x9c',
  '\x1bPq#0\x1b\\',
  '\u202egas\u202c',
  '\u2066a\u2069\u200e\u200f\u061c',
  '\ufeff\u200b\u2028\u2029\u0085',
  '\r\n\nsecond line\tcell',
  '\x00\x07\b\x7f',
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onmouseover='alert(1)",
  '</style></title></textarea><svg onload=alert(1)>',
  '&lt;b&gt;&#60;i&#62;',
  '[link](javascript:alert(1)) ![image](http://example.org/x.png)',
  '`code` **bold** | cell | <br>',
  '\n# heading\n- list\n---\n> quote',
  '=HYPERLINK("http://example.org")',
  '+1+1',
  '-1+1|cmd',
  '@SUM(A1)',
  '\t=1+1',
  ' =1+1',
  '"=1+1"',
  'a",=1+1',
  'a;=1+1;b',
  '__proto__',
  'constructor',
  '%s%n$&$1',
  '{{1+1}}',
  'x'.repeat(5000),
  '𝛌'.repeat(300),
  '\ud800\udfff\udc00',
];

/** An attack, chance letters, or both in a row. */
export const hostileText = fc
  .array(fc.oneof(fc.constantFrom(...attacks), fc.string({ unit: 'binary', maxLength: 20 })), {
    minLength: 1,
    maxLength: 3,
  })
  .map((parts) => parts.join(''));

/** Where the code does something else with a longer text: quotes, angles, lines of the record's file, its limits. */
const boundsOfLength = [
  40,
  96,
  100,
  110,
  120,
  most.nameCharacters,
  most.noteCharacters,
  most.remarkCharacters,
];

/** One sign over and over, to a length on either side of a bound. */
const textAtBound = fc
  .tuple(
    fc.constantFrom(
      'n',
      ' ',
      '"',
      '\\',
      '=',
      '<',
      '|',
      'ü',
      '°',
      "1'",
      '𝛌',
      '\u0301',
      '\u202e',
      '\ud800',
      '\x1b[2J',
      '\n',
    ),
    fc.constantFrom(...boundsOfLength),
    fc.constantFrom(-1, 0, 1),
  )
  .map(([sign, bound, off]) => sign.repeat(bound + 1).slice(0, bound + off));

/** Hostile, long, or both: at most so many characters, and often just so many. */
export const textOf = (mostCharacters: number) =>
  fc
    .oneof(
      hostileText,
      textAtBound,
      fc.tuple(hostileText, textAtBound).map((parts) => parts.join('')),
    )
    .map((text) => text.slice(0, mostCharacters));

/** Controls (line ends apart), bidirectional and other invisible marks, half surrogates. */
export const obeyedByTerminals = /[^\P{Cc}\n]|[\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u;

/** Words that only a number or a value that went missing leaves behind. */
export const holes = /\b(NaN|Infinity|undefined)\b|\[object /;

export const stackTrace = /\n\s+at .*[:(]\d+:\d+|node:internal/;
