/** Two records side by side, as text and as JSON. */
import type {
  Comparison,
  JointLine,
  KnownDifference,
  Off,
  TubeComparison,
} from '../analysis/compare-benches.ts';
import type { OrdinateUnit } from '../calibrate/types.ts';
import { signedText } from '../numeric/signed-text.ts';
import { listedText, unitMark, wavelengthText } from './quantity-text.ts';
import { safeShortText, safeText } from './safe-text.ts';
import { stationCheckText } from './station-check-text.ts';
import { indented, right, textTable, wrapText } from './text-table.ts';

/** What `compare --json` prints. */
export function compareObject(file: string, against: string, { station, known, tubes }: Comparison) {
  return { file, against, unit: station.unit, stationCheck: station, known, tubes };
}

/** `names`: of the record and of the other. */
export function compareText(
  names: { readonly now: string; readonly before: string },
  found: Comparison,
): string {
  const { station, known, tubes } = found;
  return [
    wrapText(`${safeText(names.now)} beside ${safeText(names.before)}`, '  '),
    stationCheckText(names.before, station),
    known.length === 0 ? 'No known line was read in both.' : knownTable(known, station.unit),
    ...(tubes.length === 0
      ? ['No tube stands under one label in both, so no readings are set side by side.']
      : tubes.map(tubeTable)),
  ].join('\n\n');
}

const OFF_TEXT = { now: 'read it again here', before: 'read it again there' } as const;
const offText = (off: Off): string => (off === null ? '' : OFF_TEXT[off]);

/** Of a line that one of the two has alone. */
function onlyText({ now, before }: JointLine): string {
  return now === null ? 'read there only' : before === null ? 'read here only' : '';
}

function knownTable(known: readonly KnownDifference[], unit: OrdinateUnit): string {
  const mark = unitMark(unit);
  const rows = known.map(({ wavelengthNm, difference, off }) => [
    listedText(wavelengthNm),
    signedText(difference.value, 2),
    difference.standardUncertainty.toFixed(2),
    offText(off),
  ]);
  const titles = [right('nm'), right(`difference${mark}`), right(`u${mark}`), ''];
  return `Known lines read in both, now minus then\n${indented(textTable(titles, rows))}`;
}

function tubeTable({ now, lines }: TubeComparison): string {
  const number = (index: number | null): string => (index === null ? '-' : String(index + 1));
  const row = (line: JointLine): string[] => [
    number(line.now),
    number(line.before),
    line.differenceNm === null
      ? ''
      : wavelengthText(line.differenceNm.value, line.differenceNm.standardUncertainty),
    wavelengthText(line.wavelengthNm, line.standardUncertaintyNm),
    line.off === null ? onlyText(line) : offText(line.off),
  ];
  const titles = [right('# here'), right('# there'), 'difference nm', 'joint nm', ''];
  return `${safeShortText(now, 40)}: readings side by side\n${indented(textTable(titles, lines.map(row)))}`;
}
