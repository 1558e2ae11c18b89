/** What the strip shows: each reading with its line, readings without a line, lines without a reading. */
import type { Candidate, TubeAnalysis } from '../../../analysis/types.ts';
import type { CalibrationCurve } from '../../../calibrate/types.ts';
import { tubeNamed } from '../../../lines/table.ts';
import { signedText } from '../../quantity-text.ts';
import type { BenchScale } from './bench-scale.ts';

/** Lines of the candidate fainter than this are not drawn unless something was read there. */
const faintestProminence = -3;

/** A reading with its line, a reading without a line, or a line without a reading. */
export interface Pair {
  readonly reading: { readonly label: string; readonly x: number; readonly isMarked: boolean } | null;
  readonly line: { readonly nm: number; readonly x: number } | null;
  readonly difference: string;
}

/** Each reading with its line, each expected line without a reading, at their places on the scale. */
export function pairsOf(
  tube: TubeAnalysis,
  candidate: Candidate,
  curve: CalibrationCurve,
  scale: BenchScale,
  marked: ReadonlySet<number>,
): Pair[] {
  const lineAt = (nm: number) => ({ nm, x: scale.placeOf(curve.ordinateAt(nm)) });
  const inDomain = (nm: number): boolean => nm >= curve.domainNm[0] && nm <= curve.domainNm[1];
  const readings = tube.lines.flatMap((line): Pair[] => {
    if (line.ordinate === null) return [];
    const x = scale.placeOf(line.ordinate);
    const isMarked = marked.has(line.index);
    const reading = { label: `${isMarked ? '! ' : ''}${line.index + 1} · ${scale.textAt(x)}`, x, isMarked };
    const match = candidate.matches.find(({ index }) => index === line.index);
    return match === undefined || !inDomain(match.wavelengthNm)
      ? [{ reading, line: null, difference: 'no line' }]
      : [
          {
            reading,
            line: lineAt(match.wavelengthNm),
            difference: match.asRead ? `${signedText(match.residualNm, 1)} nm` : 'slip?',
          },
        ];
  });
  const missing = candidate.missing
    .filter(({ wavelengthNm }) => inDomain(wavelengthNm))
    .map(
      ({ wavelengthNm }): Pair => ({
        reading: null,
        line: lineAt(wavelengthNm),
        difference: '',
      }),
    );
  return [...readings, ...missing];
}

/** The candidate's other visible lines: drawn as short ticks without a label. */
export function faintLines(candidate: Candidate, pairs: readonly Pair[], curve: CalibrationCurve): number[] {
  const labelled = new Set(pairs.map(({ line }) => line?.nm));
  return [candidate.substance, ...candidate.with]
    .flatMap((substance) => tubeNamed(substance)?.lines ?? [])
    .filter((line) => line.prominence >= faintestProminence && !labelled.has(line.wavelengthNm))
    .map((line) => line.wavelengthNm)
    .filter((nm) => nm >= curve.domainNm[0] && nm <= curve.domainNm[1]);
}
