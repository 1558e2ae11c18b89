/** The prism's indices as `calibrate --json` prints them. The keys are a contract with scripts. */
import type { ToldIndices } from '../analysis/types.ts';
import type { Uncertain } from '../calibrate/refractive-index.ts';
import { picked } from './safe-text.ts';

/** `baseMm`: of the prism, where it was given on the command line. */
export function indicesObject(indices: ToldIndices, baseMm: number | null) {
  const { apexAngleDeg, apexUncertaintyDeg, cauchy, nd, principalDispersion, abbeNumber } = indices;
  return {
    apexAngleDeg,
    apexUncertaintyDeg,
    lines: indices.lines.map((line) => ({
      ...picked(line, 'index', 'wavelengthNm', 'deviationDeg'),
      n: line.value,
      u: line.standardUncertainty,
      uFromLine: line.fromReading,
      uFromCentral: line.fromCentral,
      uFromApexAngle: line.fromApexAngle,
      angularDispersionArcminPerNm: withU(line.angularDispersion),
      resolvingPowerPerMm: withU(line.resolvingPowerPerMm),
      resolvingPower: baseMm === null ? null : withU(line.resolvingPowerPerMm, baseMm),
    })),
    cauchy: cauchy && {
      a: withU(cauchy.constants[0]),
      bUm2: withU(cauchy.constants[1]),
      cUm4: withU(cauchy.constants[2]),
      worst: cauchy.worst,
    },
    nd: withU(nd),
    principalDispersion: withU(principalDispersion),
    abbeNumber: withU(abbeNumber),
    extrapolated: indices.extrapolated,
    nearestGlasses: indices.nearestGlasses.map(({ glass, distance }) => ({
      ...picked(glass, 'name', 'nd', 'abbeNumber'),
      distance,
    })),
    baseMm,
    notes: indices.notes,
  };
}

function withU(quantity: Uncertain | null | undefined, times = 1) {
  return quantity ? { value: times * quantity.value, u: times * quantity.standardUncertainty } : null;
}
