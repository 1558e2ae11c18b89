/** The formulae that a student can use beside the curve: written so that what is printed gives the curve back. */
import type { HartmannFormula, OrdinateUnit, PolynomialFormula } from '../calibrate/types.ts';

/** Constants of λ = λ0 + C/(δ - δ0), δ in degrees; on a scale λ = λ0 + C/(s - s0), s in scale units. */
interface PocketConstants {
  readonly lambda0Nm: number;
  /** nm·degrees, or nm·scale units. */
  readonly strengthNm: number;
  /** Degrees, or scale units. */
  readonly zero: number;
  /** Standard uncertainties of the three; null where they go exactly through three lines. */
  readonly u: { readonly lambda0Nm: number; readonly strengthNm: number; readonly zero: number } | null;
}

const ARCMIN_PER_DEG = 60;

/** In the unit in which a student reads: degrees instead of arc-minutes. */
export function pocketConstants(
  { lambda0Nm, strength, ordinate0, u }: HartmannFormula,
  unit: OrdinateUnit,
): PocketConstants {
  const per = unit === 'arcmin' ? ARCMIN_PER_DEG : 1;
  return {
    lambda0Nm,
    strengthNm: strength / per,
    zero: ordinate0 / per,
    u: u && { lambda0Nm: u[0], strengthNm: u[1] / per, zero: u[2] / per },
  };
}

/**
 * `λ = 201.35 nm + 2875.21 nm·°/(δ - 43.0132°)`. The constants hang together: more digits than each is known to are
 * needed for the wavelength to come out to a tenth of a nanometre.
 */
export function pocketFormula(formula: HartmannFormula, unit: OrdinateUnit): string {
  const { lambda0Nm, strengthNm, zero } = pocketConstants(formula, unit);
  const [symbol, per] = unit === 'arcmin' ? ['δ', '°'] : ['s', ''];
  const mark = unit === 'arcmin' ? 'nm·°' : 'nm';
  return `λ = ${number(lambda0Nm)} nm + ${number(strengthNm)} ${mark}/(${symbol} - ${number(zero)}${per})`
    .replaceAll('- -', '+ ')
    .replaceAll('+ -', '- ');
}

/** What the formula is worth: its constants' uncertainties, and how far it lies from the curve in use. */
export function pocketSentence(formula: HartmannFormula, unit: OrdinateUnit): string {
  const { u } = pocketConstants(formula, unit);
  const [symbol, per] = unit === 'arcmin' ? ['δ0', '°'] : ['s0', ''];
  const constants =
    u === null
      ? 'It goes exactly through three lines, so its constants have no uncertainty to be told.'
      : `u(λ0) = ${rounded(u.lambda0Nm)} nm, u(C) = ${rounded(u.strengthNm)}, u(${symbol}) = ${rounded(u.zero)}${per}; the three hang together, keep all digits.`;
  return `${constants} Within the known lines it is ${formula.worstNm < 0.05 ? 'less than 0.1' : `at most ${formula.worstNm.toFixed(1)}`} nm from the curve in use.`;
}

/** `δ = 45.1 + 1.23·x + 0.045·x² with x = 1/λ², λ in µm`, and the uncertainties of its coefficients. */
export function polynomialFormula({ coefficients }: PolynomialFormula, unit: OrdinateUnit): string {
  const per = unit === 'arcmin' ? ARCMIN_PER_DEG : 1;
  const powers = ['', '·x', '·x²', '·x³'];
  const terms = coefficients.map(({ value, u }, k) => {
    const stated = u === null ? '' : ` (u ${rounded(u / per)})`;
    return `${number(value / per)}${powers[k]}${stated}`;
  });
  const symbol = unit === 'arcmin' ? 'δ in degrees' : 's in scale units';
  return `${symbol} = ${terms.join(' + ')} with x = 1/λ², λ in µm`.replaceAll('+ -', '- ');
}

const number = (value: number): string => Number(value.toPrecision(7)).toString();
const rounded = (value: number): string => Number(value.toPrecision(2)).toString();
