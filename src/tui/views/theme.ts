/** Colours and characters. Meaning never hangs on a colour: every tone has a sign or a word beside it. */
import { decoded, encoded, lineSrgb, luminanceOf } from '../../lines/screen-colour.ts';
import type { PaletteName } from '../state.ts';

export type Tone = 'normal' | 'strong' | 'faint' | 'accent' | 'good' | 'doubt' | 'bad';

/** Each sign, and the plain characters in its place. */
const GLYPHS = {
  cursor: ['▸', '>'],
  done: ['✓', 'ok'],
  doubt: ['!', '!'],
  bad: ['✗', 'X'],
  pointer: ['▼', 'v'],
  strongTick: ['┃', '#'],
  mediumTick: ['│', '|'],
  weakTick: ['┆', ':'],
  missing: ['○', 'o'],
  nothing: ['×', 'x'],
  rule: ['─', '-'],
  axis: ['─', '-'],
  axisMark: ['┼', '+'],
  point: ['●', 'o'],
  outPoint: ['×', 'x'],
  checkPoint: ['◇', 'c'],
  bar: ['█', '#'],
  upright: ['│', '|'],
  caret: ['▏', '_'],
  prompt: ['›', '>'],
} as const;

type Glyphs = Readonly<Record<keyof typeof GLYPHS, string>>;

function glyphsOf(ascii: boolean): Glyphs {
  const signs = Object.entries(GLYPHS).map(([name, [sign, plain]]) => [name, ascii ? plain : sign]);
  return Object.fromEntries(signs) as Glyphs;
}

export interface Look {
  readonly glyphs: Glyphs;
  readonly ascii: boolean;
  /** Hex colour of a tone; undefined: the terminal's own. */
  colourOf(tone: Tone): string | undefined;
  /** Hex colour in which a wavelength is drawn. */
  lineColour(wavelengthNm: number): string | undefined;
}

const TONES: Readonly<Record<PaletteName, Readonly<Partial<Record<Tone, string>>>>> = {
  // Words that matter are in the terminal's own colour; all others are as dark on white as they are bright on black.
  evening: {
    faint: '#7d786e',
    accent: '#a8742a',
    good: '#5f8a4a',
    doubt: '#a8742a',
    bad: '#d0503a',
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
    glyphs: glyphsOf(ascii),
    ascii,
    colourOf: (tone) => TONES[palette][tone],
    lineColour: (wavelengthNm) =>
      palette === 'plain' ? undefined : palette === 'dim-red' ? DIM_RED_LINE : hexOf(wavelengthNm),
  };
}

/** Relative luminances with a contrast of 3 to black, and to white (WCAG 2.1, success criterion 1.4.11). */
const DARKEST = 0.1;
const BRIGHTEST = 0.3;

/** The line's colour, as bright as can be read on a dark and on a light terminal. */
function hexOf(wavelengthNm: number): string {
  const { r, g, b } = lineSrgb(wavelengthNm);
  const linear = [r, g, b].map((part) => decoded(part / 255));
  const luminance = luminanceOf(linear);
  const wanted = Math.max(DARKEST, Math.min(BRIGHTEST, luminance));
  // Darker by less light of all three; brighter by white in it, for the strongest of them may be full already.
  const white = luminance < wanted ? (wanted - luminance) / (1 - luminance) : 0;
  const share = Math.min(1, wanted / luminance);
  const parts = linear.map((part) => encoded(part * share * (1 - white) + white));
  return `#${parts
    .map((part) =>
      Math.round(255 * part)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
}
