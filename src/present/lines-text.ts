/** Rows of the line table, for people and for scripts. */
import { provenanceOf } from '../lines/provenance.ts';
import type { FoundLine } from '../lines/search.ts';
import type { SpectralLine } from '../lines/spectrum.ts';
import { listedText } from './quantity-text.ts';
import { picked } from './safe-text.ts';
import { type Column, fitting, right, textTable } from './text-table.ts';

/** What `lines --json` prints for one line. */
export function lineObject({ substance, line }: FoundLine) {
  const provenance = provenanceOf(line);
  return {
    substance,
    ...picked(line, 'wavelengthNm', 'spectrum', 'kind', 'degraded', 'component'),
    ...picked(provenance, 'relativeIntensity', 'intensityScale'),
    ...picked(line, 'brightness', 'brightnessLn'),
    ...picked(provenance, 'brightnessBasis', 'brightnessWitnesses'),
    prominence: Number(line.prominence.toFixed(2)),
    prominenceSd: Number(line.prominenceSd.toFixed(2)),
    color: line.colour,
    ...picked(provenance, 'source', 'basis', 'doubt'),
  };
}

/** What a line's brightness rests on, the best of it first; intensities of different scales are no brightness. */
function basisText(line: SpectralLine): string {
  const { brightnessBasis, brightnessWitnesses } = provenanceOf(line);
  const { laboratories, readIn, readOf } = brightnessWitnesses;
  switch (brightnessBasis) {
    case 'measured':
      return laboratories === 1 ? '1 laboratory' : `${laboratories} laboratories`;
    case 'read counts':
      return `read by ${readIn} of ${readOf}`;
    case 'none':
      return 'not known';
    default:
      return brightnessBasis;
  }
}

type Row = (line: FoundLine) => string;

const columns: readonly (readonly [Column, Row])[] = [
  [right('nm'), ({ line }) => listedText(line.wavelengthNm)],
  ['tube', ({ substance }) => substance],
  ['spectrum', ({ line }) => line.spectrum],
  ['colour', ({ line }) => line.colour],
  ['brightness', ({ line }) => line.brightness ?? 'hardly seen'],
  ['known from', ({ line }) => basisText(line)],
  ['band to', ({ line }) => (line.kind === 'line' ? '' : (line.degraded ?? 'none'))],
];

/** One table; where that is too wide, one for each tube, or for lines sorted by nearness one without the spectra. */
export function lineTableText(found: readonly FoundLine[]): string {
  const tableOf = (of: readonly FoundLine[], left: string): string => {
    const shown = columns.filter(([column]) => column !== left);
    return textTable(
      shown.map(([column]) => column),
      of.map((line) => shown.map(([, cell]) => cell(line))),
    );
  };
  const tubes = [...new Set(found.map(({ substance }) => substance))];
  const changes = found.filter(({ substance }, at) => substance !== found[at - 1]?.substance).length;
  const linesOf = (tube: string) => found.filter(({ substance }) => substance === tube);
  const byTube = () => tubes.map((tube) => `${tube}\n${tableOf(linesOf(tube), 'tube')}`).join('\n\n');
  return fitting(
    () => tableOf(found, ''),
    changes === tubes.length ? byTube : () => tableOf(found, 'spectrum'),
  );
}
