/** The lines of every tube, from the files in data/; the build computes them (esbuild.config.mjs). */
import { brightnessFile } from './brightness-file.ts';
import { colourAt } from './colour.ts';
import { brightnessWord } from './grade-prominence.ts';
import { lineFile } from './line-file.ts';
import { mergedSpectra } from './merge-lines.ts';
import { prominences } from './prominence.ts';
import type { BrightnessWitnesses, Component, TubeLine, TubeSpectrum } from './spectrum.ts';
import { type TubeEntry, type TubePart, tubeFile } from './tube-file.ts';

const prominenceOf = prominences(lineFile, tubeFile, brightnessFile);
const spectraByName = new Map(lineFile.spectra.map((spectrum) => [spectrum.spectrum, spectrum]));

/** Who speaks for the brightness of a row beside data/lines.json itself; key `SPECTRUM NM`, rows without any left out. */
export const brightnessWitnesses: Readonly<Record<string, BrightnessWitnesses>> = Object.fromEntries(
  lineFile.spectra.flatMap(({ spectrum, rows }) =>
    rows.flatMap((row) => {
      const { witnesses } = prominenceOf.get(row)!;
      const isAnybody = Object.values(witnesses).some((count) => count > 0);
      return isAnybody ? [[`${spectrum} ${row.nm}`, witnesses]] : [];
    }),
  ),
);

/**
 * The eye adapts and the slit is opened or closed until a tube's brightest line is well seen: all lines are brought up or
 * down together until it lies between these (common practice, no source).
 */
const adaptedTo = { atLeast: -0.15, atMost: 0.5 } as const;

type UnadaptedLine = Omit<TubeLine, 'brightness'>;

function partLines(part: TubePart): UnadaptedLine[] {
  const spectrum = spectraByName.get(part.spectrum);
  if (spectrum === undefined)
    throw new Error(`data/tubes.json names a spectrum that data/lines.json lacks: ${part.spectrum}.`);
  return spectrum.rows.map((row): UnadaptedLine => {
    const { value, best, sd } = prominenceOf.get(row)!;
    return {
      wavelengthNm: row.nm,
      uNm: row.uNm ?? spectrum.uNm,
      spectrum: spectrum.spectrum,
      kind: spectrum.kind,
      degraded: spectrum.degraded,
      colour: colourAt(row.nm),
      prominence: value + part.level,
      prominenceSd: sd,
      brightnessLn: best + part.level,
      component: part.component,
      expected: part.expected,
    };
  });
}

function adapted(lines: readonly UnadaptedLine[]): TubeLine[] {
  const expected = lines.filter((line) => line.expected);
  const most = expected.reduce((most, line) => Math.max(most, line.prominence), Number.NEGATIVE_INFINITY);
  const gain = Math.min(Math.max(most, adaptedTo.atLeast), adaptedTo.atMost) - most;
  return lines.map((line) => {
    // To the hundredths that are printed: the word is that of the number beside it. JSON knows no -0.
    const brightnessLn = Math.round(100 * (line.brightnessLn + gain)) / 100 + 0;
    const brightness = brightnessWord(brightnessLn);
    return { brightness, ...line, prominence: line.prominence + gain, brightnessLn };
  });
}

function componentsOf(parts: readonly TubePart[]): Component[] {
  return [...new Set(parts.map(({ component }) => component))].map((name) => ({
    name,
    strengthSd: parts.find(({ component }) => component === name)!.strengthSd ?? 0,
  }));
}

const tubeOf = ({ substance, symbol, parts }: TubeEntry): TubeSpectrum => ({
  substance,
  symbol,
  components: componentsOf(parts),
  lines: mergedSpectra(adapted(parts.flatMap(partLines))),
});

/** Every tube of the line table, in the order of data/tubes.json. */
export const tubes: readonly TubeSpectrum[] = tubeFile.tubes.map(tubeOf);

/** What only lamps show: no candidate. */
export const lampOnlySpectra: readonly TubeSpectrum[] = tubeFile.lampOnly.map(tubeOf);
