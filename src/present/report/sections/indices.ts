/** Refractive indices of the prism, where the apex angle is known: table, formulae worked through, picture. */
import type { Analysis, ToldIndices } from '../../../analysis/types.ts';
import { indexSensitivities } from '../../../calibrate/curve/minimum-deviation.ts';
import { ABBE_LINES_NM, type LineIndex, type Uncertain } from '../../../calibrate/refractive-index.ts';
import { roundWithUncertainty } from '../../../numeric/round-uncertainty.ts';
import type { Bench } from '../../../record/bench.ts';
import {
  cauchySentence,
  cauchyText,
  glassSentence,
  resolvingPowerSentence,
} from '../../../words/index-text.ts';
import { apexText } from '../../apex-text.ts';
import { deviationText, listedText } from '../../quantity-text.ts';
import {
  type Block,
  blocksOf,
  type Figure,
  formula,
  heading,
  list,
  number,
  pair,
  paragraph,
  type Section,
  table,
} from '../document.ts';
import { indexFigure } from '../figures/index-figure.ts';

/** Null where the bench gives no index: no apex angle, or an arbitrary scale. */
export function indicesSection({ bench, calibration }: Analysis, baseMm: number | null): Section | null {
  const { indices, settingScatter } = calibration;
  if (indices === null) return null;
  return {
    title: 'Refractive indices of the prism',
    blocks: blocksOf(
      paragraph(
        `n = sin((A + δ)/2) / sin(A/2), with the apex angle A = ${apexText(bench, settingScatter)} and the minimum deviation δ; n is relative to air.`,
      ),
      indexTable(indices, bench, baseMm),
      indices.lines.length > 0 && paragraph(resolvingPowerSentence(baseMm)),
      pair(indices.lines.length < 2 ? [] : [picture(indices)], glassBlocks(indices)),
      workedExample(indices, bench),
      list(indices.notes),
    ),
  };
}

function indexTable({ lines }: ToldIndices, bench: Bench, baseMm: number | null): Block[] {
  return table(
    'refractive indices',
    "Refractive index, dispersion (in ' per nm) and resolving power at the known lines. Of u(n): the reading is the line's own, central image and A are common to all.",
    [
      ...['#', 'λ (nm)', 'deviation', 'n', 'u(n)', 'from the line', 'central', 'A', 'dδ/dλ', 'u(dδ/dλ)'],
      ...[baseMm === null ? 'λ/Δλ per mm' : `λ/Δλ, ${baseMm} mm`, 'u(λ/Δλ)'],
    ].map(number),
    lines.map((line) => [
      line.index === null ? '-' : String(line.index + 1),
      listedText(line.wavelengthNm),
      deviationText(line.deviationDeg, bench),
      ...rounded(line),
      line.fromReading.toFixed(5),
      line.fromCentral.toFixed(5),
      line.fromApexAngle.toFixed(5),
      ...rounded(line.angularDispersion),
      ...rounded(line.resolvingPowerPerMm, baseMm ?? 1),
    ]),
  );
}

/** What the indices say of the glass. */
function glassBlocks(indices: ToldIndices): Block[] {
  const { cauchy, nd } = indices;
  return blocksOf(
    cauchy && [formula(cauchyText(cauchy)), paragraph(cauchySentence(cauchy))],
    glassTable(indices),
    nd && paragraph(glassSentence(indices)),
  );
}

/** Value and u, or dashes. */
function rounded(quantity: Uncertain | null, times = 1): [string, string] {
  if (quantity === null || !(quantity.standardUncertainty > 0)) return ['-', '-'];
  const { value, u } = roundWithUncertainty(times * quantity.value, times * quantity.standardUncertainty);
  return [value, u];
}

function glassTable({ nd, abbeNumber, nearestGlasses }: ToldIndices): Block[] {
  if (nd === null || abbeNumber === null) return [];
  return table(
    'glass constants',
    `Index nd and Abbe number through the curve at ${ABBE_LINES_NM.d}, ${ABBE_LINES_NM.F} and ${ABBE_LINES_NM.C} nm, and the nearest catalogue glasses. Distance is in standard deviations.`,
    ['glass', number('nd'), number('u(nd)'), number('Abbe number'), number('u'), number('distance')],
    [
      ['this prism', ...rounded(nd), ...rounded(abbeNumber), ''],
      ...nearestGlasses.map(({ glass, distance }) => [
        glass.name,
        glass.nd.toFixed(5),
        '',
        glass.abbeNumber.toFixed(2),
        '',
        distance.toFixed(1),
      ]),
    ],
  );
}

function picture(indices: ToldIndices): Figure {
  const wavelengths = indices.lines.map(({ wavelengthNm }) => wavelengthNm);
  return {
    kind: 'figure',
    half: true,
    caption:
      "Refractive index against wavelength: the known lines with ±2u, Cauchy's formula through them (thin), and the catalogue glasses that come near (broad, grey).",
    description: `Refractive index from ${Math.min(...wavelengths)} to ${Math.max(...wavelengths)} nm beside catalogue glasses.`,
    draw: () => indexFigure(indices),
  };
}

/** The formula and its uncertainty with the numbers of one line put in: the middle one. */
function workedExample(
  { lines, apexAngleDeg, apexUncertaintyDeg, ...of }: ToldIndices,
  bench: Bench,
): Block[] {
  const line = [...lines].sort((a, b) => a.wavelengthNm - b.wavelengthNm)[Math.floor((lines.length - 1) / 2)];
  if (line === undefined) return [];
  const { deviationDeg, value } = line;
  const A = apexAngleDeg.toFixed(3);
  const delta = deviationDeg.toFixed(3);
  const half = (apexAngleDeg + deviationDeg) / 2;
  const sine = (deg: number): string => Math.sin((deg * Math.PI) / 180).toFixed(5);
  const abbe = of.abbeNumber;
  return [
    heading(`Worked example: the index at ${listedText(line.wavelengthNm)} nm`),
    formula(
      `δ = ${deviationText(deviationDeg, bench)} = ${delta}°,  A = ${A}°`,
      `n = sin((${A}° + ${delta}°)/2) / sin(${A}°/2) = sin(${half.toFixed(4)}°) / sin(${(apexAngleDeg / 2).toFixed(4)}°) = ${sine(half)} / ${sine(apexAngleDeg / 2)} = ${value.toFixed(5)}`,
      ...uncertaintyLines(line, apexAngleDeg, apexUncertaintyDeg),
      ...(of.nd === null || of.principalDispersion === null || abbe === null
        ? []
        : [
            `Abbe number = (nd - 1)/(nF - nC) = ${(of.nd.value - 1).toFixed(5)} / ${of.principalDispersion.value.toFixed(5)} = ${rounded(abbe)[0]}`,
          ]),
    ),
  ];
}

function uncertaintyLines(
  { deviationDeg, fromReading, fromCentral, fromApexAngle, standardUncertainty, value }: LineIndex,
  apexAngleDeg: number,
  apexUncertaintyDeg: number | null,
): string[] {
  const { perDeviationArcmin, perApexArcmin } = indexSensitivities(apexAngleDeg, deviationDeg);
  const ofDelta = Math.hypot(fromReading, fromCentral) / perDeviationArcmin;
  const uA = 60 * (apexUncertaintyDeg ?? 0);
  if (!(standardUncertainty > 0)) return [];
  return [
    `∂n/∂δ = cos((A + δ)/2) / (2 sin(A/2)) = ${perDeviationArcmin.toFixed(6)} per arc-minute,  ∂n/∂A = -sin(δ/2) / (2 sin²(A/2)) = ${perApexArcmin.toFixed(6)} per arc-minute`,
    `u(δ) = ${ofDelta.toFixed(2)}' with the central image,  u(A) = ${uA.toFixed(2)}'`,
    `u(n) = √((${perDeviationArcmin.toFixed(6)}·${ofDelta.toFixed(2)})² + (${Math.abs(perApexArcmin).toFixed(6)}·${uA.toFixed(2)})²) = √(${Math.hypot(fromReading, fromCentral).toFixed(5)}² + ${fromApexAngle.toFixed(5)}²) = ${roundWithUncertainty(value, standardUncertainty).u}`,
  ];
}
