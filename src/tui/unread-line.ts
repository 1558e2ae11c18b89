/** What a line that is no reading was probably meant to be. */
import Fuse from 'fuse.js';
import type { Circle } from '../angle/circle.ts';
import { parseAngle } from '../angle/parse-angle.ts';
import { quoteText } from '../angle/quote-text.ts';
import { findTube } from '../lines/names.ts';
import { OPENS_LIST, wayTo } from './action-list.ts';
import type { Stage } from './state.ts';
import { BRIGHTNESS, COLOUR_WORDS, readTypedLine } from './typed.ts';

interface UnreadLine {
  /** One sentence. */
  readonly problem: string;
  /** The whole line as it was probably meant; null without a likely one. */
  readonly suggestion: string | null;
}

/** Null where the line has nothing of which more can be said than the reader of angles says. */
export function unreadLine(text: string, circle: Circle | null, stage: Stage): UnreadLine | null {
  if (!/\d/.test(text)) return { problem: notAReading(text, stage), suggestion: null };
  return misspeltWord(text) ?? digitsInARow(text, circle);
}

/** Letters are text: a name is no reading, and what can be done besides typing one is in the list. */
function notAReading(text: string, stage: Stage): string {
  const isTube = text.length < 40 && 'substance' in findTube(text);
  const name = quoteText(text);
  if (isTube && stage === 'tube') return `${name}: your answer is written on stage 4 (${wayTo('answer')}).`;
  if (isTube && stage === 'lamp')
    return `${name}: the lamp is chosen with ${wayTo('lamp')}, a second one with ${wayTo('another-lamp')}.`;
  return `${name} is no reading; ${OPENS_LIST} opens the list of all else that can be done.`;
}

/** `228 52 voilet`. */
function misspeltWord(text: string): UnreadLine | null {
  const [, before, word] = /^(.*[\d°'"′″]\s*)([a-z][a-z\s-]+)$/i.exec(text) ?? [];
  if (before === undefined || word === undefined) return null;
  const isKnown = (text: string): boolean => readTypedLine(`1 ${text}`).parts.join() === '1';
  if (isKnown(word)) return null;
  // Of several words those that are known stay: `yelow strong`.
  const parts = word.toLowerCase().split(/\s+/);
  const nearest = parts.map((part) => (isKnown(part) ? part : nearWords(part)[0]));
  const near = nearest.includes(undefined) ? nearWords(word.toLowerCase())[0] : nearest.join(' ');
  const problem = `${quoteText(word)} is no colour or brightness`;
  return near === undefined
    ? { problem: `${problem}; behind a reading stand words such as red, blue-green, weak.`, suggestion: null }
    : { problem: `${problem}; did you mean ${near}?`, suggestion: `${before}${near}` };
}

const WORDS = [...COLOUR_WORDS, ...Object.keys(BRIGHTNESS), 'check'];

function nearWords(word: string): readonly string[] {
  const letters = (text: string): string => [...text].sort().join('');
  const swapped = WORDS.filter((each) => letters(each) === letters(word));
  return swapped.length > 0
    ? swapped
    : new Fuse(WORDS, { threshold: 0.4, ignoreLocation: true }).search(word).map(({ item }) => item);
}

/** `22844`: degrees and minutes without anything between them. */
function digitsInARow(text: string, circle: Circle | null): UnreadLine | null {
  const [, before = '', degrees, minutes, after = ''] =
    /^(.*?)(?<![\d.,])(\d{1,3})(\d\d)(?![\d.,])(.*)$/.exec(text) ?? [];
  if (circle === null || circle.decimal || degrees === undefined || Number(degrees + minutes) <= 360)
    return null;
  const meant = `${degrees}°${minutes}'`;
  if (!parseAngle(meant, circle).ok) return null;
  return {
    problem: `${quoteText(degrees + minutes)} is past a full circle; did you mean ${meant}?`,
    suggestion: `${before}${meant}${after}`,
  };
}
