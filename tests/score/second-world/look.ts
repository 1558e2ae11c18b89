/** The law of what is seen: which features a tube shows through this slit, and with what chance each is written down. */
import type { Random } from '../random.ts';
import { eye, writing } from './assumptions.ts';
import { purkinjeShift } from './dark-eye.ts';
import { factSpectrum } from './facts.ts';
import { normalBelow } from './gauss.ts';
import type { Glow, Origin } from './tubes.ts';

/** What an observer brings to one tube; unknown to anybody who only has the record. */
export interface Observer {
  readonly threshold: number;
  readonly darkShare: number;
  readonly diligence: number;
  /** Where there are many lines: how much sooner a bright one is written, a unit of natural logarithm; 0 at random. */
  readonly preference: number;
  readonly isComplete: boolean;
}

export function drawObserver(random: Random, isComplete: boolean): Observer {
  const { threshold, darkShare } = eye;
  return {
    threshold: random.normal(threshold.mean, threshold.spread),
    darkShare: Math.min(darkShare.most, random.logNormal(darkShare.typical, darkShare.logSpread)),
    diligence: random.between(writing.leastDiligence, 1),
    preference: random.chance(writing.atRandomChance) ? 0 : writing.preference,
    isComplete,
  };
}

/** The optics that decide what merges: deviation in arc-minutes of a wavelength, and the slit's image. */
export interface Optics {
  readonly deviationArcmin: (nm: number) => number;
  readonly slitArcmin: number;
}

/** A line, or lines merged by the slit, or a band head. */
export interface Feature {
  /** Where the cross-hairs are set: anywhere from `nm` to `nm + depthNm` with equal chance. */
  readonly nm: number;
  readonly depthNm: number;
  /** Expected brightness over this observer's threshold in the field around it, and its scatter. */
  readonly above: number;
  readonly scatter: number;
  /** Chance that it, once seen, is written down. */
  readonly written: number;
  /** Of the brightest line in it. */
  readonly origin: Origin;
}

interface LitLine {
  readonly nm: number;
  readonly at: number;
  readonly brightness: number;
  readonly uncertainty: number;
  readonly shaded: 'violet' | 'red' | null;
  readonly origin: Origin;
}

/** Chance that a line is seen. */
export const chanceSeen = ({ above, scatter }: Pick<Feature, 'above' | 'scatter'>): number =>
  normalBelow(above / scatter);

/** Fainter than this under the threshold a line plays no part, natural logarithm. */
const ignored = 4;

function litLines(glow: readonly Glow[], observer: Observer, optics: Optics): LitLine[] {
  const lines: LitLine[] = [];
  for (const { spectrum, level, origin } of glow) {
    const { lines: facts, shaded } = factSpectrum(spectrum);
    for (const { nm, brightness, uncertainty, weights } of facts) {
      if (nm < eye.fromNm || nm > eye.toNm) continue;
      const seen = brightness + level + purkinjeShift(observer.darkShare, weights);
      if (seen < observer.threshold - ignored) continue;
      lines.push({ nm, at: optics.deviationArcmin(nm), brightness: seen, uncertainty, shaded, origin });
    }
  }
  return lines.sort((a, b) => b.brightness - a.brightness);
}

/** Each line that is nearer than the slit's width to a brighter one is one with it, at the place of their light. */
function merged(lines: readonly LitLine[], slitArcmin: number): LitLine[] {
  const isTaken = new Array<boolean>(lines.length).fill(false);
  const groups: LitLine[] = [];
  for (const [k, line] of lines.entries()) {
    if (isTaken[k]) continue;
    let [light, placeNm] = [0, 0];
    for (let j = k; j < lines.length; j++) {
      const other = lines[j]!;
      if (isTaken[j] || Math.abs(other.at - line.at) > slitArcmin) continue;
      isTaken[j] = true;
      light += Math.exp(other.brightness);
      placeNm += Math.exp(other.brightness) * other.nm;
    }
    groups.push({ ...line, nm: placeNm / light, brightness: Math.log(light) });
  }
  return groups;
}

/**
 * What this observer can see of a glowing tube, in order of wavelength. Brightnesses are expected ones: each feature
 * is then seen, or not, by itself.
 */
export function look(glow: readonly Glow[], observer: Observer, optics: Optics): Feature[] {
  const groups = merged(litLines(glow, observer, optics), optics.slitArcmin);
  const faintest = Math.exp(observer.threshold);
  const dazzling = groups
    .map(({ at, brightness }) => ({ at, light: eye.veil.share * Math.exp(brightness) }))
    .filter(({ light }) => light > eye.veil.counts * faintest);
  const seen = groups.map((line) => {
    let glare = 0;
    for (const { at, light } of dazzling) {
      const distance = (at - line.at) / eye.veil.halfArcmin;
      if (distance !== 0) glare += light / (1 + distance * distance);
    }
    const threshold = Math.log(faintest + glare);
    const slitNm =
      optics.slitArcmin / Math.abs(optics.deviationArcmin(line.nm + 1) - optics.deviationArcmin(line.nm));
    const depth = eye.bandDepthNm + slitNm / 2;
    return {
      nm: line.nm,
      depthNm: line.shaded === null ? 0 : line.shaded === 'violet' ? -depth : depth,
      origin: line.origin,
      above: line.brightness - threshold,
      scatter: Math.hypot(line.uncertainty, eye.tubeScatter, eye.noticing),
    };
  });
  const written = chancesWritten(seen, observer);
  return seen
    .map(({ nm, depthNm, above, scatter, origin }, k) => ({
      nm,
      depthNm,
      above,
      scatter,
      origin,
      written: written[k]!,
    }))
    .sort((a, b) => a.nm + a.depthNm / 2 - b.nm - b.depthNm / 2);
}

/** Some are passed over by chance, and where many are seen so many that about ten are written down. */
function chancesWritten(
  features: readonly Omit<Feature, 'written'>[],
  { diligence, preference, isComplete }: Observer,
): number[] {
  if (isComplete) return features.map(() => 1);
  const seen = features.map(chanceSeen);
  const weights = features.map(({ above }) => Math.exp(preference * above));
  const expected = (factor: number): number => {
    let sum = 0;
    for (let k = 0; k < seen.length; k++) sum += seen[k]! * Math.min(diligence, factor * weights[k]!);
    return sum;
  };
  // In natural logarithm; at the top every feature has its full chance.
  let [low, high] = [-15, 15];
  if (expected(Math.exp(high)) <= writing.manyLines) return features.map(() => diligence);
  for (let step = 0; step < 14; step++) {
    const middle = (low + high) / 2;
    if (expected(Math.exp(middle)) > writing.manyLines) high = middle;
    else low = middle;
  }
  return weights.map((weight) => Math.min(diligence, Math.exp(low) * weight));
}
