/** The colour in which a screen draws a spectral line. */

export interface Srgb {
  readonly r: number;
  readonly g: number;
  readonly b: number;
}

type Vector = readonly [number, number, number];

/** A lobe with different widths on its two sides: peak value, its place in nm, inverse widths per nm. */
function lobe(wavelengthNm: number, peak: number, atNm: number, below: number, above: number): number {
  const t = (wavelengthNm - atNm) * (wavelengthNm < atNm ? below : above);
  return peak * Math.exp(-0.5 * t * t);
}

/**
 * CIE 1931 2-degree colour-matching functions, the multi-lobe fit of C. Wyman, P.-P. Sloan, P. Shirley,
 * J. Computer Graphics Techniques 2(2) (2013) 1, table 1: good to about a hundredth of the maximum.
 */
export function colourMatching(wavelengthNm: number): Vector {
  const at = (peak: number, atNm: number, below: number, above: number) =>
    lobe(wavelengthNm, peak, atNm, below, above);
  return [
    at(1.056, 599.8, 0.0264, 0.0323) + at(0.362, 442.0, 0.0624, 0.0374) + at(-0.065, 501.1, 0.049, 0.0382),
    at(0.821, 568.8, 0.0213, 0.0247) + at(0.286, 530.9, 0.0613, 0.0322),
    at(1.217, 437.0, 0.0845, 0.0278) + at(0.681, 459.0, 0.0385, 0.0725),
  ];
}

/** XYZ to linear sRGB, IEC 61966-2-1:1999. */
const xyzToSrgb: readonly Vector[] = [
  [3.2406, -1.5372, -0.4986],
  [-0.9689, 1.8758, 0.0415],
  [0.0557, -0.204, 1.057],
];

/** The transfer curve of IEC 61966-2-1:1999, linear 0-1 to coded 0-1. */
export function encoded(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** Coded 0-1 to linear 0-1. */
export function decoded(coded: number): number {
  return coded <= 0.04045 ? coded / 12.92 : ((coded + 0.055) / 1.055) ** 2.4;
}

/** Relative luminance of linear red, green and blue (0-1 each), the Y row of IEC 61966-2-1:1999. */
export function luminanceOf([r = 0, g = 0, b = 0]: readonly number[]): number {
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** No line is drawn darker than this share of full brightness, so that deep red and violet stay visible. */
const brightnessFloor = 0.6;
/** Beyond these the hue hardly changes any more, and the fit of the colour-matching functions fails. */
const violetEndNm = 410;
const redEndNm = 650;
/** Luminous efficiency above which a line is drawn at full brightness. */
const fullBrightnessAt = 0.25;

/**
 * The sRGB colour (0-255 each) of a spectral line. Spectral colours lie outside the screen's gamut: the negative
 * parts are cut off, the hue is kept at full strength, and the ends of the spectrum are dimmed, never below the floor.
 */
export function lineSrgb(wavelengthNm: number): Srgb {
  const hue = colourMatching(Math.min(Math.max(wavelengthNm, violetEndNm), redEndNm));
  const linear = xyzToSrgb.map((row) => Math.max(0, row[0] * hue[0] + row[1] * hue[1] + row[2] * hue[2]));
  const strongest = Math.max(...linear);
  // The response of the eye to brightness goes roughly with the cube root (as in CIE 1976 lightness).
  const dimmed = Math.max(
    brightnessFloor,
    Math.min(1, Math.cbrt(colourMatching(wavelengthNm)[1] / fullBrightnessAt)),
  );
  const [r, g, b] = linear.map((value) =>
    Math.round(255 * dimmed * encoded(strongest > 0 ? value / strongest : 0)),
  );
  return { r: r!, g: g!, b: b! };
}
