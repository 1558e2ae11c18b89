/** For each known line: the wavelengths it may really have, with prior odds. */
import { colourLogLikelihood } from '../../lines/colour-likelihood.ts';
import { isPairMean, isSameLine, SAME_LINE_NM } from '../../lines/same-line.ts';
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { logAdd } from '../../numeric/log-sum.ts';
import { sumOf } from '../../numeric/sum.ts';
import type { ReadingAlternative } from '../../observe/slip-hypotheses.ts';
import type { KnownBenchLine } from '../../record/bench.ts';
import * as assumed from '../assumptions.ts';

export type ChoiceKind = 'as-stated' | 'slip' | 'neighbour' | 'assigned' | 'set-aside';

/** One way to understand one known line. */
export interface LineChoice {
  readonly kind: ChoiceKind;
  /** Null when the line is set aside. */
  readonly wavelengthNm: number | null;
  /** Variance of that wavelength: an unresolved pair, a rounded number. nm². */
  readonly wavelengthVariance: number;
  readonly slip: ReadingAlternative | null;
  /** ln prior, before what the neighbouring line's choice says. */
  readonly logPrior: number;
}

/** Does this choice say that something was done wrong? */
export function isFault(choice: LineChoice): boolean {
  return choice.slip !== null || !['as-stated', 'assigned'].includes(choice.kind);
}

/** A line that a lamp shows to a student, or two that only show as one. */
export interface LampLine {
  readonly wavelengthNm: number;
  readonly variance: number;
  readonly prominence: number;
  /** Chance that a student writes it down. */
  readonly chance: number;
  /** An ordinary lamp may well lack it: nobody passes it over. */
  readonly optional: boolean;
}

/** The lamp's visible lines and unresolved pairs, ascending in wavelength. */
export function lampLines(lamp: TubeSpectrum): LampLine[] {
  const { most, halfAt, softness } = assumed.WRITTEN;
  const visible = lamp.lines
    .filter((line) => line.prominence >= assumed.FAINTEST)
    .map(({ wavelengthNm, prominence, expected }) => {
      const written = most / (1 + Math.exp(-(prominence - halfAt) / softness));
      const chance = expected ? written : assumed.OPTIONAL_CHANCE * written;
      return { wavelengthNm, variance: 0, prominence, chance, optional: !expected };
    });
  // A faint line between the two, as in mercury's yellow pair, does not part them.
  const bright = visible.filter(({ prominence }) => prominence >= assumed.FAINTEST_OF_PAIR);
  const pairs = bright.flatMap((line, i) => {
    const next = bright[i + 1];
    if (!next) return [];
    const separation = next.wavelengthNm - line.wavelengthNm;
    if (separation > assumed.PAIR_NM) return [];
    // A pair read as one line lies anywhere between the two (half the separation over √3, GUM 4.3.7).
    const middle = (line.wavelengthNm + next.wavelengthNm) / 2;
    const prominence = Math.max(line.prominence, next.prominence);
    const variance = (separation / 2) ** 2 / 3;
    return [{ ...line, wavelengthNm: middle, variance, prominence, chance: line.chance / 2 }];
  });
  return [...visible, ...pairs].sort((a, b) => a.wavelengthNm - b.wavelengthNm);
}

/** The lamp's lines as they stand in the table that the stated wavelengths were taken from. */
export function linesOfTheTable(lamp: readonly LampLine[], statedNm: readonly number[]): LampLine[] {
  const isStated = (line: LampLine): boolean => statedNm.some((nm) => isSameEntry(line, nm));
  const stated = lamp.filter(isStated);
  return lamp.map((line) => {
    if (isStated(line)) return { ...line, chance: assumed.IN_THE_TABLE_CHANCE, optional: false };
    const given = stated.some(
      (other) =>
        line.variance > 0 !== other.variance > 0 &&
        Math.abs(other.wavelengthNm - line.wavelengthNm) < assumed.PAIR_NM / 2,
    );
    return given ? { ...line, chance: line.chance * assumed.ALSO_SINGLY } : line;
  });
}

function isSameEntry(line: LampLine, statedNm: number): boolean {
  return (line.variance > 0 ? isPairMean : isSameLine)(line.wavelengthNm, statedNm);
}

/** What a lamp's own table says of the wavelengths that the record states for it. */
export interface LampTable {
  /** The lines that are seen, with the chance that they stand in the table that was used. */
  readonly lines: readonly LampLine[];
  /** False: no line of the lamp, however faint, has that wavelength (nm), and most others of the record have one. */
  isListed(statedNm: number): boolean;
}

/** Of a lamp most of whose stated wavelengths are not its own every wavelength counts as listed: its name is wrong. */
export function lampTable(
  lamp: TubeSpectrum,
  statedNm: readonly number[],
  lines: readonly LampLine[] = lampLines(lamp),
): LampTable {
  const stands = lamp.lines.filter((line) => line.prominence >= assumed.FAINTEST_LISTED);
  const isOwn = (nm: number): boolean =>
    stands.some((line) => Math.abs(line.wavelengthNm - nm) < SAME_LINE_NM + roundingNm(nm)) ||
    lines.some((line) => isSameEntry(line, nm));
  const named = statedNm.filter(isOwn).length > statedNm.length / 2;
  return { lines, isListed: (nm) => !named || isOwn(nm) };
}

/** A reading that belongs to no line, with the chance that it is so. */
function setAside(chance: number): LineChoice {
  const logPrior = Math.log(chance);
  return { kind: 'set-aside', wavelengthNm: null, wavelengthVariance: 0, slip: null, logPrior };
}

/** Choices for a line whose wavelength the record states. */
export function statedChoices(
  line: KnownBenchLine,
  statedNm: number,
  { lines: lamp, isListed }: LampTable,
  slips: readonly ReadingAlternative[],
): LineChoice[] {
  const variance = statedVariance(statedNm, lamp);
  const stated = { wavelengthNm: statedNm, wavelengthVariance: variance };
  const listed = isListed(statedNm);
  // Every way to believe that wavelength is as much less likely.
  const believed = listed ? 0 : Math.log(assumed.UNLISTED.right);
  const choices: LineChoice[] = [
    { kind: 'as-stated', slip: null, logPrior: believed, ...stated },
    setAside(assumed.FAULT_CHANCE.setAside),
    ...slips.map((slip): LineChoice => {
      return { kind: 'slip', slip, logPrior: slip.logOdds + believed, ...stated };
    }),
  ];
  if (line.confirmed) return choices;
  const others = neighbours(statedNm, lamp);
  return [...choices, ...(listed ? others : mistyped(statedNm, others))];
}

/** The lines that differ in one digit from what is written, or in two exchanged ones, are likelier by that. */
function mistyped(statedNm: number, others: readonly LineChoice[]): LineChoice[] {
  const meant = writtenAlike(statedNm);
  const isMeant = ({ wavelengthNm, wavelengthVariance }: LineChoice): boolean =>
    wavelengthVariance === 0 &&
    meant.some((nm) => Math.abs(nm - wavelengthNm!) < assumed.MEANT_NM + roundingNm(statedNm));
  const count = others.filter(isMeant).length;
  return others.map((choice) =>
    isMeant(choice)
      ? { ...choice, logPrior: logAdd(choice.logPrior, Math.log(assumed.UNLISTED.oneDigitWrong / count)) }
      : choice,
  );
}

/** Half a step of the last decimal written, nm. */
function roundingNm(statedNm: number): number {
  const { length: decimals } = String(statedNm).split('.')[1] ?? '';
  return 0.5 * 10 ** -Math.min(decimals, 3);
}

/** The numbers written like this one but for one digit, or for two neighbouring digits exchanged. */
function writtenAlike(nm: number): number[] {
  const digits = [...String(nm)];
  return digits.flatMap((digit, at) => {
    if (digit === '.') return [];
    const replaced = [...'0123456789'].map((other) => Number(digits.with(at, other).join('')));
    const next = digits[at + 1];
    if (next === undefined || next === '.') return replaced;
    return [...replaced, Number(digits.toSpliced(at, 2, next, digit).join(''))];
  });
}

/** Named for another line of the table on either side; each that is passed over makes the confusion less likely. */
function neighbours(statedNm: number, lamp: readonly LampLine[]): LineChoice[] {
  const named = lamp.find((line) => isSameEntry(line, statedNm));
  const sides = [
    lamp.filter((other) => other.wavelengthNm < statedNm - SAME_LINE_NM).reverse(),
    lamp.filter((other) => other.wavelengthNm > statedNm + SAME_LINE_NM),
  ];
  return sides.flatMap((side) => {
    let passing = 1;
    const weighted = side.slice(0, assumed.REACH).map((other) => {
      const isUnlike =
        named !== undefined &&
        other.chance < assumed.IN_THE_TABLE_CHANCE &&
        Math.abs(other.prominence - named.prominence) > assumed.LOOKS_UNLIKE;
      const weight = passing * other.chance * (isUnlike ? assumed.UNLIKE : 1);
      passing *= 1 - assumed.PASSING_COST * other.chance;
      return { other, weight };
    });
    // Where only lines follow that hardly anybody sees, hardly any is taken for the stated one.
    const total = sumOf(weighted, ({ weight }) => weight);
    return weighted.map(
      ({ other, weight }): LineChoice => ({
        kind: 'neighbour',
        wavelengthNm: other.wavelengthNm,
        wavelengthVariance: other.variance,
        slip: null,
        logPrior: Math.log(((assumed.FAULT_CHANCE.neighbour / 2) * weight) / Math.max(1, total)),
      }),
    );
  });
}

/** Choices for a line without a stated wavelength: any visible line of the lamp, helped by its colour. */
export function openChoices(
  line: KnownBenchLine,
  lamp: readonly LampLine[],
  slips: readonly ReadingAlternative[],
): LineChoice[] {
  const assigned = lamp.map((candidate) => ({
    kind: 'assigned' as const,
    wavelengthNm: candidate.wavelengthNm,
    wavelengthVariance: candidate.variance,
    slip: null,
    logPrior: Math.log(candidate.chance) + colourLogLikelihood(line.colour, candidate.wavelengthNm),
  }));
  const slipped = slips
    .filter((slip) => slip.logOdds > assumed.UNLIKELY_SLIP)
    .flatMap((slip) =>
      assigned.map((choice) => ({ ...choice, slip, logPrior: choice.logPrior + slip.logOdds })),
    );
  return [...assigned, ...slipped, setAside(assumed.SET_ASIDE_UNNAMED * assumed.FAULT_CHANCE.setAside)];
}

/** An unresolved pair quoted by its mean (578.0, 589.3), and the rounding of the number as written. */
function statedVariance(statedNm: number, lamp: readonly LampLine[]): number {
  const pair = lamp.find((line) => line.variance > 0 && isSameEntry(line, statedNm));
  return (pair?.variance ?? 0) + roundingNm(statedNm) ** 2 / 3;
}
