/** Refractive indices in formulae and sentences. */
import type { CauchyFormula } from '../calibrate/cauchy.ts';
import type { GlassHint, IndexNote, RefractiveIndices } from '../calibrate/refractive-index.ts';

/** A distance in standard deviations beyond which a glass is no longer offered as near. */
const NEAR = 3;

/** `n = 1.59967 + 0.008752/λ² + 0.0001811/λ⁴, λ in µm`: enough digits to give the index back to a few 0.00001. */
export function cauchyText({ constants }: CauchyFormula): string {
  const terms = constants.map(({ value }, power) => `${value.toFixed(5 + power)}${powerText[power]}`);
  return `n = ${terms.join(' + ')}, λ in µm`.replaceAll('+ -', '- ');
}

const powerText = ['', '/λ²', '/λ⁴'];

/** What Cauchy's formula is worth: the uncertainties of its constants, and how far it lies from the indices. */
export function cauchySentence({ constants, worst }: CauchyFormula): string {
  const names = ['a', 'b', 'c'];
  const units = ['', ' µm²', ' µm⁴'];
  const u = constants.map(
    ({ standardUncertainty }, k) =>
      `u(${names[k]}) = ${Number(standardUncertainty.toPrecision(2))}${units[k]}`,
  );
  const formula = constants.map((_, k) => `${names[k]}${powerText[k]}`).join(' + ');
  return `Cauchy's formula ${formula} by least squares: ${u.join(', ')}; no index lies more than ${worst.toFixed(5)} from it.`;
}

export const isNear = ({ distance }: GlassHint): boolean => distance <= NEAR;

/** Which catalogue glasses it may be. */
export function glassSentence({ nearestGlasses, extrapolated }: RefractiveGlass): string {
  const near = nearestGlasses.filter(isNear).map(({ glass }) => glass.name);
  const hint =
    near.length === 0
      ? 'None of the catalogue glasses compared is near; the prism may be of another glass, or A or the deviations are off.'
      : `The numbers fit ${near.join(', ')}: a hint, since many glasses of several makers lie close together and only a few were compared.`;
  return extrapolated
    ? `${hint} At least one of the three wavelengths lies outside the range of the known lines.`
    : hint;
}

type RefractiveGlass = Pick<RefractiveIndices, 'nearestGlasses' | 'extrapolated'>;

/** A sentence about the indices as a whole. */
export function indexNote(note: IndexNote): string {
  switch (note.what) {
    case 'apex-exact':
      return 'The apex angle has no stated uncertainty: the indices hold for that angle exactly.';
    case 'apex-common':
      return 'The uncertainty of the apex angle is one mistake shared by all lines: it moves all indices alike.';
    case 'apex-from-images':
      return 'The apex angle is half the angle between two reflected images: its uncertainty is that of two readings on this circle, resolution and setting, and moves all indices alike.';
    case 'set-where':
      return 'The prism was set once, and for which line is not written down: no index can be given (name the wavelength in setAtNm).';
    case 'set-beyond-curve':
      return `The prism was set once, at ${note.setAtNm} nm, where no known line was read and the curve does not reach: no index can be given.`;
    case 'set-once':
      return note.isRead
        ? 'The prism was set once: only the line it was set for was at minimum deviation, so only its index is given.'
        : `The prism was set once, at ${note.setAtNm} nm, where no known line was read: its deviation there is taken from the curve, and only this index is given.`;
    case 'no-such-index':
      return `The index comes out as ${note.index.toFixed(2)}, which no glass or liquid has: is the apex angle of ${Number(note.apexAngleDeg.toFixed(3))}° right (the angle between the two faces that the light passes, mostly near 60°), and the central image?`;
    case 'misset':
      return `A prism that is not quite at minimum deviation makes every index too large, never too small: by ${note.index.toFixed(5)} for a setting 1° away (${note.deviationArcmin.toFixed(1)}' in the deviation), growing with the square.`;
  }
}

/** What the resolving power is, and of what. `baseMm` null: for each millimetre. */
export function resolvingPowerSentence(baseMm: number | null): string {
  const base = baseMm === null ? 'for each mm of its base' : `with a base of ${baseMm} mm`;
  return `λ/Δλ = t·|dn/dλ| is the resolving power of the prism ${base}, t, filled with light: the limit set by diffraction, with a slit that has no width.`;
}
