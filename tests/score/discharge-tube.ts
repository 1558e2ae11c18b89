/** What a student sees and writes down of a discharge tube. */
import type { TubeSpectrum } from '../../src/lines/spectrum.ts';
import type { Random } from './random.ts';

/** How one person looks at one tube. */
export interface Looking {
  /** Lines fainter than this (logarithm of visibility, 0 for a strong line) are not seen. */
  readonly faintnessLimit: number;
  /** Lines closer than this are one. */
  readonly resolutionArcmin: number;
  /** Scatter of the brightness of lines from tube to tube, logarithmic. */
  readonly prominenceScatter: number;
  /** Chance that a strong line is missing altogether, and that a weak one is strong. */
  readonly oddTubeChance: number;
  /** Chance that a line seen is not written down. */
  readonly omissionChance: number;
  readonly maximumLines: number;
  /** When there are more lines than that: the brightest, or any. */
  readonly cut: 'brightest' | 'any';
  /** Mean number of lines that are not the tube's. */
  readonly strayRate: number;
}

export interface SeenLine {
  /** Where the cross-hairs are set: the middle of a merged group, the apparent edge of a band. */
  readonly wavelengthNm: number;
  readonly origin: 'line' | 'merged' | 'band-head' | 'stray';
  readonly prominence: number;
}

/** Lines of other sources that turn up in a tube or a room; wavelengths NIST SRD 108, choice common practice, no source. */
const impurityNm = [656.28, 486.13, 546.07, 435.83, 577.0, 579.07, 589.3, 587.56, 519.8, 561.0, 391.4];

/** A band is set on within its shaded side, up to this far from the head; common practice, no source. */
const headBiasNm = 1;

/** Strong and weak, for the odd tubes. */
const strongAbove = -0.65;
const weakBelow = -2;

function emitted(random: Random, tube: TubeSpectrum, looking: Looking): SeenLine[] {
  // Ion lines, molecular hydrogen and the like: a discharge shows a whole spectrum of them or hardly any.
  const spectrumStrength = new Map<string, number>();
  const strengthOf = (spectrum: string): number => {
    const known = spectrumStrength.get(spectrum);
    if (known !== undefined) return known;
    const drawn = random.normal(-0.5, 0.8);
    spectrumStrength.set(spectrum, drawn);
    return drawn;
  };
  return tube.lines.flatMap((line) => {
    let prominence = line.prominence + random.normal(0, looking.prominenceScatter);
    if (!line.expected) prominence += strengthOf(line.spectrum);
    if (random.chance(looking.oddTubeChance)) {
      if (line.prominence > strongAbove) return [];
      if (line.prominence < weakBelow) prominence = 0;
    }
    const bias = random.between(0, headBiasNm);
    const side = line.degraded === 'violet' ? -1 : line.degraded === 'red' ? 1 : random.sign() / 2;
    const isHead = line.kind === 'band-head';
    return {
      wavelengthNm: line.wavelengthNm + (isHead ? side * bias : 0),
      origin: isHead ? ('band-head' as const) : ('line' as const),
      prominence,
    };
  });
}

/** Closest lines first, until all that remain are farther apart than the resolution. */
function merge(
  lines: readonly SeenLine[],
  resolutionArcmin: number,
  deviationAt: (wavelengthNm: number) => number,
): SeenLine[] {
  const left = [...lines].sort((a, b) => a.wavelengthNm - b.wavelengthNm);
  const places = left.map((line) => deviationAt(line.wavelengthNm));
  for (;;) {
    let closest = -1;
    let gap = resolutionArcmin;
    for (let k = 1; k < left.length; k++) {
      const distance = Math.abs(places[k]! - places[k - 1]!);
      if (distance < gap) {
        gap = distance;
        closest = k;
      }
    }
    if (closest < 0) return left;
    const [a, b] = [left[closest - 1]!, left[closest]!];
    const share = 1 / (1 + Math.exp(a.prominence - b.prominence));
    const wavelengthNm = a.wavelengthNm + share * (b.wavelengthNm - a.wavelengthNm);
    const prominence = Math.log(Math.exp(a.prominence) + Math.exp(b.prominence));
    left.splice(closest - 1, 2, { wavelengthNm, origin: 'merged', prominence });
    places.splice(closest - 1, 2, deviationAt(wavelengthNm));
  }
}

function drawStrays(random: Random, looking: Looking): SeenLine[] {
  return Array.from({ length: random.poisson(looking.strayRate) }, () => ({
    wavelengthNm: random.chance(0.5) ? random.pick(impurityNm) : random.between(400, 700),
    origin: 'stray' as const,
    prominence: random.between(looking.faintnessLimit, 0),
  }));
}

/** The lines that get into the record, from red to violet. */
export function drawSeenLines(
  random: Random,
  tube: TubeSpectrum,
  looking: Looking,
  deviationAt: (wavelengthNm: number) => number,
): SeenLine[] {
  // What is far below the limit neither shows nor shifts a merged group.
  const emittedLines = emitted(random, tube, looking).filter(
    (l) => l.prominence > looking.faintnessLimit - 1,
  );
  const seen = merge(emittedLines, looking.resolutionArcmin, deviationAt)
    .filter((line) => line.prominence > looking.faintnessLimit && !random.chance(looking.omissionChance))
    .concat(drawStrays(random, looking));
  const ranked =
    looking.cut === 'any' ? random.shuffle(seen) : seen.sort((a, b) => b.prominence - a.prominence);
  return ranked.slice(0, looking.maximumLines).sort((a, b) => b.wavelengthNm - a.wavelengthNm);
}
