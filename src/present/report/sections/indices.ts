/** Refractive indices of the prism, where the apex angle is known. */
import type { Analysis } from '../../../analysis/types.ts';
import {
  ABBE_LINES_NM,
  type RefractiveIndices,
  refractiveIndices,
} from '../../../calibrate/refractive-index.ts';
import { roundWithUncertainty } from '../../../numeric/round-uncertainty.ts';
import type { Bench } from '../../../record/bench.ts';
import { deviationText, listedText } from '../../quantity-text.ts';
import { type Block, formula, list, number, paragraph, type Section, table } from '../document.ts';
import { apexText } from './setup.ts';

/** A distance in standard deviations beyond which a glass is no longer offered as near. */
const NEAR = 3;

/** Null where the bench gives no index: no apex angle, or an arbitrary scale. */
export function indicesSection({ bench, calibration }: Analysis): Section | null {
  const indices = refractiveIndices(bench, calibration);
  if (indices === null || bench.apexAngle === null) return null;
  return {
    title: 'Refractive indices of the prism',
    blocks: [
      formula('n = sin((A + δ)/2) / sin(A/2)'),
      paragraph(
        `A is the apex angle, ${apexText(bench.apexAngle, bench)}; δ the minimum deviation. n is relative to air.`,
      ),
      ...indexTable(indices, bench),
      ...glassTable(indices),
      ...(indices.nd === null ? [] : [paragraph(glassSentence(indices))]),
      ...list(indices.notes),
    ],
  };
}

function indexTable({ lines }: RefractiveIndices, bench: Bench): Block[] {
  return table(
    'refractive indices',
    'Refractive index at the known lines. The last columns are the parts of u: the reading of the line is its own, the central image and A are common to all lines.',
    [
      number('#'),
      number('wavelength (nm)'),
      number('deviation'),
      number('n'),
      number('u'),
      number('u from the line'),
      number('from central'),
      number('from A'),
    ],
    lines.map((line) => {
      const given = roundWithUncertainty(line.value, line.standardUncertainty);
      return [
        String(line.index + 1),
        listedText(line.wavelengthNm),
        deviationText(line.deviationDeg, bench),
        given.value,
        given.u,
        line.fromReading.toFixed(5),
        line.fromCentral.toFixed(5),
        line.fromApexAngle.toFixed(5),
      ];
    }),
  );
}

function glassTable({ nd, abbeNumber, nearestGlasses }: RefractiveIndices): Block[] {
  if (nd === null || abbeNumber === null) return [];
  const measured = [nd, abbeNumber].map((quantity) =>
    roundWithUncertainty(quantity.value, quantity.standardUncertainty),
  );
  return table(
    'glass constants',
    `Index nd and Abbe number through the curve at ${ABBE_LINES_NM.d}, ${ABBE_LINES_NM.F} and ${ABBE_LINES_NM.C} nm, and the nearest catalogue glasses. Distance is in standard deviations.`,
    ['', number('nd'), number('u(nd)'), number('Abbe number'), number('u(Abbe)'), number('distance')],
    [
      ['measured', measured[0]!.value, measured[0]!.u, measured[1]!.value, measured[1]!.u, ''],
      ...nearestGlasses.map(({ glass, distance }) => [
        `catalogue: ${glass.name}`,
        glass.nd.toFixed(5),
        '',
        glass.abbeNumber.toFixed(2),
        '',
        distance.toFixed(1),
      ]),
    ],
  );
}

function glassSentence({ nearestGlasses, extrapolated }: RefractiveIndices): string {
  const near = nearestGlasses.filter(({ distance }) => distance <= NEAR).map(({ glass }) => glass.name);
  const hint =
    near.length === 0
      ? 'None of the catalogue glasses compared is near; the prism may be of another glass, or A or the deviations are off.'
      : `The numbers fit ${near.join(', ')}: a hint, since many glasses of several makers lie close together and only a few were compared.`;
  return extrapolated
    ? `${hint} At least one of the three wavelengths lies outside the range of the known lines.`
    : hint;
}
