/** The comparison of two calibrations in plain text: one sentence, then the numbers. */
import type { Difference, StationCheck } from '../analysis/station-check.ts';
import { roundWithUncertainty } from '../numeric/round-uncertainty.ts';
import { unitMark } from './quantity-text.ts';
import { safeText } from './safe-text.ts';
import { indented, textTable, wrapText } from './text-table.ts';

/** `against`: the name of the earlier record. */
export function stationCheckText(against: string, check: StationCheck): string {
  const mark = unitMark(check.unit);
  const rows: string[][] = [];
  if (check.central !== null) rows.push(['central image moved by', differenceText(check.central, mark)]);
  if (check.curve !== null) {
    const [shortest, longest] = check.curve.commonRangeNm;
    rows.push(
      [
        `deviations shifted by (${shortest.toFixed(0)}-${longest.toFixed(0)} nm)`,
        differenceText(check.curve.shift, mark),
      ],
      ['stretched by (short end against long end)', differenceText(check.curve.stretch, mark)],
    );
  }
  if (check.scatter !== null) {
    const { before, now } = check.scatter;
    rows.push(['scatter of one setting', `${before.toFixed(2)}${mark} then, ${now.toFixed(2)}${mark} now`]);
  }
  const sentence = wrapText(`Against ${safeText(against)}: ${check.sentence}`);
  return rows.length === 0 ? sentence : `${sentence}\n${indented(textTable(['', ''], rows).trimStart())}`;
}

function differenceText({ value, standardUncertainty }: Difference, mark: string): string {
  return `${value < 0 ? '' : '+'}${roundWithUncertainty(value, standardUncertainty).text}${mark}`;
}
