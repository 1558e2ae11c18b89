import type { Circle } from './circle.ts';
import { oddities } from './odd-angles.ts';
import { parseTerm, type Sexagesimal, termDegrees } from './parse-term.ts';
import { quoteText } from './quote-text.ts';
import { unifySigns } from './unify-signs.ts';

/** Something to ask about before a reading is taken. */
export interface OddReading {
  readonly code:
    | 'finer-than-least-count'
    | 'minutes-without-degrees'
    | 'seconds-for-minutes'
    | 'decimal-for-minutes'
    | 'vernier-beyond-division'
    | 'off-main-scale'
    | 'outside-circle'
    | 'windows-disagree'
    | 'repeats-disagree';
  /** One sentence, with the reading in it. */
  readonly message: string;
  /** What was probably meant; null where there is no likely one. */
  readonly suggestion: string | null;
}

/** What was typed, number by number. */
export interface AngleParts {
  /** The whole angle, or the main scale where a vernier part was typed after a plus sign. */
  readonly mainScale: Sexagesimal;
  readonly vernier: Sexagesimal | null;
}

export type AngleResult =
  | {
      readonly ok: true;
      /** 0 to 360. */
      readonly degrees: number;
      readonly parts: AngleParts;
      readonly odd: readonly OddReading[];
    }
  | { readonly ok: false; readonly problem: string };

const longestText = 100;

/**
 * Reads an angle as a person types it at a bench. The circle, where it is known, says what a vernier part counts
 * and what is odd; nothing odd is corrected here, it is only named.
 */
export function parseAngle(text: string, circle: Circle | null = null): AngleResult {
  const refuse = (problem: string, cure = `write for instance ${exampleAngle(circle)}`): AngleResult => ({
    ok: false,
    problem: `${quoteText(text)} ${problem}; ${cure}`,
  });
  if (text.trim() === '')
    return { ok: false, problem: `there is no angle; write for instance ${exampleAngle(circle)}` };
  if (text.length > longestText) return refuse('is too long for an angle');
  if (!/\d/.test(text.normalize('NFKC'))) return refuse('is not an angle');
  const unified = unifySigns(text);
  if (/(?:^|\+)\s*-/.test(unified)) return refuse('is negative', 'a circle goes from 0° to 360°');
  const [mainText = '', vernierText, ...more] = unified.split('+').map((part) => part.trim());
  if (more.length > 0) return refuse('has more than one plus sign', 'write main scale + vernier');

  const main = parseTerm(mainText);
  if (!main.ok) return refuse(main.problem, main.cure);
  const vernier = vernierText === undefined ? null : parseVernier(vernierText, circle);
  if (vernier?.ok === false) return refuse(`behind the plus sign ${vernier.problem}`, vernier.cure);
  if (vernier !== null && main.term.degrees === null) return refuse('has no degrees before the plus sign');
  const parts = { mainScale: main.term, vernier: vernier?.term ?? null };
  const degrees = termDegrees(main.term) + (vernier === null ? 0 : termDegrees(vernier.term));
  if (degrees > 360) return refuse('is past a full circle', 'a circle goes from 0° to 360°');
  return { ok: true, degrees, parts, odd: circle === null ? [] : oddities(text, parts, circle) };
}

/**
 * The part after the plus sign. A number without a sign is minutes; on a circle divided in decimals of a degree it
 * is degrees if it has a decimal mark, and otherwise the number of the vernier tick that coincides.
 */
function parseVernier(text: string, circle: Circle | null): ReturnType<typeof parseTerm> {
  if (!circle?.decimal) return parseTerm(text, 'minutes');
  const parsed = parseTerm(text);
  if (!parsed.ok || !parsed.term.bare || text.includes('.')) return parsed;
  const degrees = ((parsed.term.degrees ?? 0) * circle.leastCountArcmin) / 60;
  return { ok: true, term: { ...parsed.term, degrees } };
}

/** A reading as it may be typed for this circle, for messages. */
function exampleAngle(circle: Circle | null): string {
  if (circle?.decimal) return '232.68';
  return circle !== null && circle.leastCountArcmin < 1 ? '232°41\'30"' : "232°41'";
}
