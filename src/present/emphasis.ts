/** Weight of text on a terminal: never needed to understand it, and absent in a pipe or under NO_COLOR. */
export interface Emphasis {
  strong(text: string): string;
  faint(text: string): string;
}

export const plain: Emphasis = { strong: (text) => text, faint: (text) => text };

export const terminalEmphasis: Emphasis = {
  strong: (text) => `\x1b[1m${text}\x1b[22m`,
  faint: (text) => `\x1b[2m${text}\x1b[22m`,
};
