/** Colours and characters. Meaning never hangs on a colour: every tone has a sign or a word beside it. */
import { lineSrgb } from '../../lines/screen-colour.ts';
import type { PaletteName } from '../state.ts';

export type Tone = 'normal' | 'strong' | 'faint' | 'accent' | 'good' | 'doubt' | 'bad';

export interface Glyphs {
  readonly cursor: string;
  readonly done: string;
  readonly doubt: string;
  readonly bad: string;
  readonly pointer: string;
  readonly strongTick: string;
  readonly mediumTick: string;
  readonly weakTick: string;
  readonly missing: string;
  readonly nothing: string;
  readonly rule: string;
  readonly axis: string;
  readonly axisMark: string;
  readonly point: string;
  readonly outPoint: string;
  readonly checkPoint: string;
  readonly bar: string;
  readonly upright: string;
  readonly caret: string;
  readonly prompt: string;
}

const UNICODE: Glyphs = {
  cursor: '▸',
  done: '✓',
  doubt: '!',
  bad: '✗',
  pointer: '▼',
  strongTick: '┃',
  mediumTick: '│',
  weakTick: '┆',
  missing: '○',
  nothing: '×',
  rule: '─',
  axis: '─',
  axisMark: '┼',
  point: '●',
  outPoint: '×',
  checkPoint: '◇',
  bar: '█',
  upright: '│',
  caret: '▏',
  prompt: '›',
};

const ASCII: Glyphs = {
  cursor: '>',
  done: 'ok',
  doubt: '!',
  bad: 'X',
  pointer: 'v',
  strongTick: '#',
  mediumTick: '|',
  weakTick: ':',
  missing: 'o',
  nothing: 'x',
  rule: '-',
  axis: '-',
  axisMark: '+',
  point: 'o',
  outPoint: 'x',
  checkPoint: 'c',
  bar: '#',
  upright: '|',
  caret: '_',
  prompt: '>',
};

export interface Look {
  readonly glyphs: Glyphs;
  readonly ascii: boolean;
  /** Hex colour of a tone; undefined: the terminal's own. */
  colourOf(tone: Tone): string | undefined;
  /** Hex colour in which a wavelength is drawn. */
  lineColour(wavelengthNm: number): string | undefined;
}

const TONES: Readonly<Record<PaletteName, Readonly<Partial<Record<Tone, string>>>>> = {
  evening: {
    normal: '#b8b2a6',
    strong: '#e8e2d4',
    faint: '#7d786e',
    accent: '#d8a657',
    good: '#8fae7a',
    doubt: '#e0b050',
    bad: '#e07862',
  },
  'dim-red': {
    normal: '#8a2a2a',
    strong: '#b03838',
    faint: '#5e2020',
    accent: '#a83434',
    good: '#8a2a2a',
    doubt: '#b03838',
    bad: '#c04040',
  },
  plain: {},
};

const DIM_RED_LINE = '#a03030';

export function lookOf(palette: PaletteName, ascii: boolean): Look {
  return {
    glyphs: ascii ? ASCII : UNICODE,
    ascii,
    colourOf: (tone) => TONES[palette][tone],
    lineColour: (wavelengthNm) =>
      palette === 'plain' ? undefined : palette === 'dim-red' ? DIM_RED_LINE : hexOf(wavelengthNm),
  };
}

function hexOf(wavelengthNm: number): string {
  const { r, g, b } = lineSrgb(wavelengthNm);
  return `#${[r, g, b].map((part) => part.toString(16).padStart(2, '0')).join('')}`;
}
