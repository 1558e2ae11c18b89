/** The catalogue glasses: what a prism on a laboratory bench is likely to be made of. */
import catalogue from '../../../data/glasses.json' with { type: 'json' };
import { sumOf } from '../../numeric/sum.ts';

export interface Glass {
  readonly name: string;
  /** Catalogue refractive index at the helium d line, 587.56 nm. */
  readonly nd: number;
  /** Catalogue Abbe number (nd - 1) / (nF - nC). */
  readonly abbeNumber: number;
  /** Terms of the Sellmeier equation; the resonance is a squared wavelength in µm². */
  readonly sellmeier: readonly { readonly strength: number; readonly resonanceUm2: number }[];
}

/** From crown to dense flint; the published source is in data/glasses.json. */
export const glasses: readonly Glass[] = catalogue.glasses;

/**
 * Refractive index relative to air at a wavelength in air (nm), by the Sellmeier equation
 * n² - 1 = Σ B·L²/(L² - C), L in µm: the convention of the SCHOTT catalogue. Good to about 1e-5 from 365 to 1000 nm.
 */
export function refractiveIndex(glass: Glass, wavelengthNm: number): number {
  const squareUm2 = (wavelengthNm / 1000) ** 2;
  const excess = sumOf(
    glass.sellmeier,
    (term) => (term.strength * squareUm2) / (squareUm2 - term.resonanceUm2),
  );
  return Math.sqrt(1 + excess);
}
