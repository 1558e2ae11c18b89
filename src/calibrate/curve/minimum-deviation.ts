/**
 * The prism at minimum deviation: n = sin((A + δ)/2) / sin(A/2), with A the apex angle and δ the minimum deviation
 * (Born & Wolf, Principles of Optics, section 4.7.2). n is relative to the air around the prism, as glass
 * catalogues give it.
 */
const RAD_PER_DEG = Math.PI / 180;
const RAD_PER_ARCMIN = RAD_PER_DEG / 60;

/** Refractive index for an apex angle and a minimum deviation, both in degrees. */
export function indexAtMinimum(apexAngleDeg: number, deviationDeg: number): number {
  return (
    Math.sin(((apexAngleDeg + deviationDeg) / 2) * RAD_PER_DEG) / Math.sin((apexAngleDeg / 2) * RAD_PER_DEG)
  );
}

/** Minimum deviation in degrees of a prism with this apex angle (degrees) and refractive index. */
export function minimumDeviationDeg(apexAngleDeg: number, refractiveIndex: number): number {
  const halfApex = (apexAngleDeg / 2) * RAD_PER_DEG;
  return (2 * Math.asin(refractiveIndex * Math.sin(halfApex))) / RAD_PER_DEG - apexAngleDeg;
}

/** Derivatives of n: ∂n/∂δ and ∂n/∂A, each per arc-minute. */
export function indexSensitivities(
  apexAngleDeg: number,
  deviationDeg: number,
): { perDeviationArcmin: number; perApexArcmin: number } {
  const sinHalfApex = Math.sin((apexAngleDeg / 2) * RAD_PER_DEG);
  const cosIncidence = Math.cos(((apexAngleDeg + deviationDeg) / 2) * RAD_PER_DEG);
  return {
    perDeviationArcmin: (cosIncidence / (2 * sinHalfApex)) * RAD_PER_ARCMIN,
    perApexArcmin:
      (-Math.sin((deviationDeg / 2) * RAD_PER_DEG) / (2 * sinHalfApex * sinHalfApex)) * RAD_PER_ARCMIN,
  };
}

/**
 * Excess deviation in arc-minutes of a prism set 1° (in the angle of incidence) away from minimum deviation.
 * Second-order term of the ray path through a prism: ½·d²δ/di² = tan i · (1 - tan²(A/2)/tan²i) at the minimum.
 */
export function excessPerDegreeSquaredArcmin(apexAngleDeg: number, deviationDeg: number): number {
  const tanIncidence = Math.tan(((apexAngleDeg + deviationDeg) / 2) * RAD_PER_DEG);
  const tanHalfApex = Math.tan((apexAngleDeg / 2) * RAD_PER_DEG);
  const halfCurvature = tanIncidence * (1 - (tanHalfApex / tanIncidence) ** 2);
  return (halfCurvature * RAD_PER_DEG ** 2) / RAD_PER_ARCMIN;
}
