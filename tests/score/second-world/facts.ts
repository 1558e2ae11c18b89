/** Lines and bands as facts, frozen beside this world: `facts.json` says what each number rests on. */
import { type EyeWeights, eyeWeights } from './dark-eye.ts';
import factFile from './facts.json' with { type: 'json' };

export interface FactLine {
  readonly nm: number;
  /** Expected brightness, natural logarithm of eye weight, and its standard uncertainty. */
  readonly brightness: number;
  readonly uncertainty: number;
  readonly weights: EyeWeights;
}

export interface FactSpectrum {
  /** Side to which a band head shades off; null for lines. */
  readonly shaded: 'violet' | 'red' | null;
  readonly lines: readonly FactLine[];
}

interface SpectrumRow {
  readonly spectrum: string;
  readonly shaded?: string;
  readonly lines: readonly (readonly (number | string)[])[];
}

const spectra: ReadonlyMap<string, FactSpectrum> = new Map(
  (factFile.spectra as readonly SpectrumRow[]).map(({ spectrum, shaded, lines }) => [
    spectrum,
    {
      shaded: shaded === 'violet' || shaded === 'red' ? shaded : null,
      lines: lines.map(([nm, brightness, uncertainty]) => ({
        nm: Number(nm),
        brightness: Number(brightness),
        uncertainty: Number(uncertainty),
        weights: eyeWeights(Number(nm)),
      })),
    },
  ]),
);

/** Throws RangeError where there is no such spectrum. */
export function factSpectrum(name: string): FactSpectrum {
  const found = spectra.get(name);
  if (found === undefined) throw new RangeError(`no spectrum ${name} among the facts`);
  return found;
}
