/** The instructor's page: what is in the tubes, and where their lines should be found at each station. */
import type { PredictedLine } from '../../analysis/predict.ts';
import type { StationOptics } from '../../analysis/station-lines.ts';
import { formatDeviation } from '../../angle/format-angle.ts';
import type { Bench } from '../../record/bench.ts';
import { placeText } from '../predict-output.ts';
import { uncertaintyText, unitMark } from '../quantity-text.ts';
import {
  type Block,
  number,
  paragraph,
  type ReportDocument,
  type Section,
  table,
} from '../report/document.ts';
import { renderHtml } from '../report/html.ts';

/** What is in a tube. */
interface TubeAnswer {
  /** "" where it has no label. */
  readonly label: string;
  readonly expected: string;
  readonly lines: readonly PredictedLine[];
}

export interface StationAnswers {
  readonly record: string;
  readonly station: string;
  readonly lamp: string;
  readonly lampLines: readonly PredictedLine[];
  readonly tubes: readonly TubeAnswer[];
  readonly optics: StationOptics['kind'];
  /** False where there are deviations only. */
  readonly readable: boolean;
  /** In words: `the known lamp of week-1.json`, `an F2 prism of 60°`, "" where nothing is known. */
  readonly basis: string;
  readonly bench: Bench;
}

/** One page for all stations. `generatedOn`: date of writing as text. */
export function answersHtml(stations: readonly StationAnswers[], generatedOn: string): string {
  return renderHtml(answersDocument(stations, generatedOn));
}

function answersDocument(stations: readonly StationAnswers[], generatedOn: string): ReportDocument {
  return {
    title: stations.length === 1 ? 'The answers of a station' : `The answers of ${stations.length} stations`,
    abstract: ['For the instructor: this page names the tubes. Not for the benches.'],
    sections: [stationsSection(stations), ...cribSections(stations)],
    imprint: `Written by whichgas on ${generatedOn}.`,
  };
}

function stationsSection(stations: readonly StationAnswers[]): Section {
  const rows = stations.flatMap(({ station, record, lamp, tubes }) =>
    tubes.map(({ label, expected }) => [station, record, lamp, label, expected]),
  );
  return {
    title: 'The stations',
    blocks: [
      ...table('stations', 'What is where.', ['station', 'record', 'known lamp', 'tube', 'holds'], rows),
      paragraph('Lines that a station shows as one are one row, placed where an eye sets on them.'),
    ],
  };
}

interface Crib {
  readonly title: string;
  readonly of: StationAnswers;
  readonly lines: readonly PredictedLine[];
  /** Stations and tubes that it serves. */
  readonly places: string[];
}

/** One crib sheet for all tubes and lamps whose lines are found at the same places. */
function cribSections(stations: readonly StationAnswers[]): Section[] {
  const cribs = new Map<string, Crib>();
  const take = (of: StationAnswers, title: string, lines: readonly PredictedLine[], place: string): void => {
    const key = JSON.stringify([
      title,
      of.basis,
      lines.map(({ reading, deviationDeg }) => [reading, deviationDeg]),
    ]);
    const crib = cribs.get(key);
    if (crib === undefined) cribs.set(key, { title, of, lines, places: [place] });
    else if (!crib.places.includes(place)) crib.places.push(place);
  };
  for (const of of stations) {
    for (const { label, expected, lines } of of.tubes) {
      take(of, expected, lines, label === '' ? placeName(of) : `${placeName(of)}, ${label}`);
    }
  }
  for (const of of stations) take(of, `Known lamp: ${of.lamp}`, of.lampLines, placeName(of));
  return [...cribs.values()].map((crib) => ({
    title: crib.title,
    blocks: [paragraph(`${crib.places.join('; ')}.`), ...cribTable(crib)],
  }));
}

const placeName = ({ station, record }: StationAnswers): string =>
  station === '' ? record : `station ${station}`;

function ofReadings({ bench, readable }: StationAnswers): string {
  if (!readable) return 'it was read otherwise than this station is, so there are deviations and no readings';
  return bench.method === 'scale'
    ? 'where the scale has been moved, all readings move with it'
    : 'where the central image is read elsewhere, all readings move with it';
}

function cribTable({ of, lines }: Crib): Block[] {
  const { optics, basis, bench } = of;
  const fineness = { leastCountArcmin: bench.leastCount, decimal: bench.decimalCircle ?? false };
  const uColumn = `u${unitMark(bench.method === 'scale' ? 'scale' : 'arcmin')}`;
  const rows = lines.map((line) => [
    line.reading ?? '',
    line.deviationDeg === null ? '' : formatDeviation(line.deviationDeg, fineness),
    line.standardUncertainty === null ? '' : uncertaintyText(line.standardUncertainty),
    `${placeText(line)}${line.extrapolated ? ' *' : ''}`,
    line.colour,
    line.brightness ?? '',
  ]);
  const extrapolated = lines.some((line) => line.extrapolated)
    ? ' * outside the range of the known lines.'
    : '';
  const captions: Readonly<Record<StationOptics['kind'], string>> = {
    calibrated: `Places by ${basis}; ${ofReadings(of)}.${extrapolated}`,
    glass: `Places by ${basis} at minimum deviation: another melt or apex angle shifts all of them, usually by less than half a degree.`,
    unknown:
      'Nothing is known of this prism, so there are no readings: name a calibration of another day, or a glass and an apex angle.',
  };
  return table(
    'crib',
    captions[optics],
    [number('reading'), number('deviation'), number(uColumn), number('nm'), 'colour', 'to the eye'],
    rows,
  );
}
