/** Weight and colour of text on a terminal: never needed to understand it, and absent in a pipe or under NO_COLOR. */
import type { Srgb } from '../lines/screen-colour.ts';

export interface Emphasis {
  strong(text: string): string;
  faint(text: string): string;
  /** In the colour of a line, where the terminal has colours enough. */
  tinted(text: string, colour: Srgb): string;
}

const asItIs = (text: string): string => text;

export const plain: Emphasis = { strong: asItIs, faint: asItIs, tinted: asItIs };

export const terminalEmphasis: Emphasis = {
  strong: (text) => `\x1b[1m${text}\x1b[22m`,
  faint: (text) => `\x1b[2m${text}\x1b[22m`,
  tinted: asItIs,
};

/** On a terminal with 24 bits of colour. */
export const colouredEmphasis: Emphasis = {
  ...terminalEmphasis,
  tinted: (text, { r, g, b }) => `\x1b[38;2;${r};${g};${b}m${text}\x1b[39m`,
};
