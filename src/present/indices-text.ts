/** The prism's indices in plain text. */
import type { ToldIndices } from '../analysis/types.ts';
import type { Uncertain } from '../calibrate/refractive-index.ts';
import { roundWithUncertainty } from '../numeric/round-uncertainty.ts';
import type { Bench } from '../record/bench.ts';
import {
  cauchySentence,
  cauchyText,
  glassSentence,
  isNear,
  resolvingPowerSentence,
} from '../words/index-text.ts';
import { apexText } from './apex-text.ts';
import { deviationText, listedText } from './quantity-text.ts';
import { bullet, indented, indentedParagraph, pageWidth, right, textTable, wrapText } from './text-table.ts';

/** `baseMm`: of the prism, where it was given on the command line. */
export function indicesBlock(
  bench: Bench,
  indices: ToldIndices,
  settingScatter: number | null,
  baseMm: number | null,
): string {
  const { lines, cauchy, nd, abbeNumber, nearestGlasses, notes } = indices;
  const rows = lines.map((line) => [
    line.index === null ? '-' : String(line.index + 1),
    listedText(line.wavelengthNm),
    deviationText(line.deviationDeg, bench),
    quantityText(line),
    quantityText(line.angularDispersion),
    quantityText(line.resolvingPowerPerMm, baseMm ?? 1),
  ]);
  const resolving = baseMm === null ? 'λ/Δλ per mm' : `λ/Δλ, base ${baseMm} mm`;
  const titles = ['#', 'nm', 'deviation', 'n ± u', "dδ/dλ ('/nm)", resolving];
  const glasses = nearestGlasses
    .filter((hint, at) => at === 0 || isNear(hint))
    .map(
      ({ glass, distance }) =>
        `${glass.name} (nd ${glass.nd.toFixed(5)}, Abbe number ${glass.abbeNumber.toFixed(2)}, ${distance.toFixed(1)} u away)`,
    );
  return [
    wrapText(
      `Refractive indices, n = sin((A + δ)/2)/sin(A/2) with A = ${apexText(bench, settingScatter)}`,
      '  ',
    ),
    rows.length > 0 && indented(textTable(titles.map(right), rows)),
    cauchy && `  ${cauchyText(cauchy)}`,
    cauchy && indentedParagraph(cauchySentence(cauchy)),
    nd &&
      abbeNumber &&
      indentedParagraph(`nd = ${quantityText(nd)}, Abbe number ${quantityText(abbeNumber)}`),
    glasses.length > 0 &&
      indentedParagraph(`Nearest in the catalogue: ${glasses.join(', ')}. ${glassSentence(indices)}`),
    rows.length > 0 && indentedParagraph(resolvingPowerSentence(baseMm)),
    ...notes.map((note) => indented(bullet(note, '- ', pageWidth - 2))),
  ]
    .filter(Boolean)
    .join('\n');
}

function quantityText(quantity: Uncertain | null, times = 1): string {
  if (quantity === null) return '-';
  const { value, standardUncertainty } = quantity;
  return standardUncertainty > 0
    ? roundWithUncertainty(times * value, times * standardUncertainty).text
    : String(Number((times * value).toPrecision(6)));
}
