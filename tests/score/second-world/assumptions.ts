/**
 * Every choice of the second world that is not a published fact. All of them: common practice, no source, unless one
 * is named. None was fitted to the program, and none may be: this world judges it.
 */

/** Natural logarithms of eye weight; in `facts.json` a strong line stands at -1, a weak one at -4.8. */
export const eye = {
  /** Faintest line seen against a dark field: mean and spread between benches (tube, slit and eye together). */
  threshold: { mean: -4.2, spread: 1.3 },
  /** Scatter of what is noticed from line to line. */
  noticing: 0.6,
  /** From tube to tube, line by line, beside the uncertainty of the fact. */
  tubeScatter: 0.4,
  /** Share of the dark-adapted eye in its sensitivity: median, spread of its logarithm, largest (Purkinje shift). */
  darkShare: { typical: 0.08, logSpread: 0.7, most: 0.35 },
  /**
   * Light of a bright line spread over the field: share, and distance in arc-minutes at which it is halved; where it
   * is less than `counts` of the faintest light seen, it is none.
   */
  veil: { share: 0.01, halfArcmin: 3, counts: 0.02 },
  /** Width of the slit's image, arc-minutes: a line nearer than this to a brighter one is lost in it. */
  slit: { medianArcmin: 1.5, logSpread: 0.5, fromArcmin: 0.5, toArcmin: 5 },
  /** A band head is set up to so far on its shaded side, nm, and up to half a slit farther. */
  bandDepthNm: 0.8,
  /** What a dark-adapted eye sees at all. */
  fromNm: 388,
  toNm: 800,
} as const;

export const writing = {
  /** Share of the lines seen that an observer troubles to write down, from this to 1. */
  leastDiligence: 0.65,
  /** Of more lines than this, about this many are written down. */
  manyLines: 10,
  /**
   * Half of the observers leave out the rest at random. The others write a line that is brighter by 1 (natural
   * logarithm) sooner by this (natural logarithm): of five published observers of neon who chose some lines 80 to
   * 100 % wrote those at -1, 40 % those at -2 to -3, few the fainter ones.
   */
  atRandomChance: 0.5,
  preference: 0.6,
  /** The record says, and it is true, that all lines seen are written down. */
  completeChance: 0.05,
  /** A line that is none (a reflection, the reading of another image), a bench, anywhere in these wavelengths. */
  ghostChance: 0.02,
  ghostFromNm: 400,
  ghostToNm: 700,
} as const;

export const contents = {
  /** Ions shine at full strength in a third of tubes; elsewhere they are weaker by so much. */
  fullIonsChance: 1 / 3,
  weakIonsBy: { from: 3, to: 8 },
  /** One ratio of molecules (or of another system of bands) to atoms for each tube: spread. */
  ratioSpread: 1.5,
  impurityChance: 0.2,
  impurity: { mean: -4, spread: 1.5 },
  /** Starting gas of a metal-vapour lamp still to be seen. */
  startingGasChance: 0.35,
  startingGas: { mean: -3.5, spread: 1.5 },
  /** A neighbour's mercury or sodium lamp. */
  neighbourChance: 0.03,
} as const;

export const prisms = {
  apexDeg: { mean: 60, spread: 0.4 },
  /** A prism set once and left, central method only. */
  fixedChance: 0.15,
  /** How far from minimum deviation a line is set, degrees. */
  missetDeg: 0.6,
} as const;

export const hands = {
  /** Standard deviation of a setting in least counts: from half to several. */
  scatterCounts: { median: 0.5, logSpread: 0.6, from: 0.2, to: 3.5 },
  /** No hand is better than this, arc-minutes. */
  leastArcmin: 0.25,
  /** Another observer at the tube than at the lamp, and how differently they set, in standard deviations. */
  twoObserversChance: 0.4,
  observerBias: 0.4,
  repeats: [
    { weight: 0.65, count: 1 },
    { weight: 0.25, count: 2 },
    { weight: 0.1, count: 3 },
  ],
  /** Movement of the bench between lamp and tube in least counts: none mostly. */
  drift: [
    { weight: 0.7, counts: 0 },
    { weight: 0.2, counts: 0.5 },
    { weight: 0.1, counts: 1.5 },
  ],
  rereadCentralChance: 0.4,
} as const;

export const notes = {
  coloursChance: 0.65,
  fineWordsChance: 0.4,
  /** Wavelength by which eyes and vocabularies differ, nm, and the chance of a word that is simply wrong. */
  colourSpreadNm: 8,
  wrongWordChance: 0.02,
  brightnessChance: 0.4,
  /** Above the threshold of seeing by so much: medium, strong. */
  mediumFrom: 2,
  strongFrom: 4,
} as const;

export const mixedBenches = {
  wrongLampChance: 0.01,
  namelessLampChance: 0.05,
} as const;
