/** Rows of the line table, for people and for scripts. */
import type { FoundLine } from '../lines/search.ts';
import { textTable } from './text-table.ts';

export function lineObject({ substance, line }: FoundLine) {
  const {
    wavelengthNm,
    spectrum,
    kind,
    degraded,
    relativeIntensity,
    brightness,
    colour,
    source,
    basis,
    doubt,
  } = line;
  return {
    substance,
    wavelengthNm,
    spectrum,
    kind,
    degraded,
    relativeIntensity,
    brightness,
    color: colour,
    source,
    basis,
    doubt,
  };
}

export function lineTableText(found: readonly FoundLine[]): string {
  return textTable(
    [
      { title: 'nm (air)', align: 'right' },
      { title: 'tube' },
      { title: 'spectrum' },
      { title: 'colour' },
      { title: 'to the eye' },
      { title: 'intensity', align: 'right' },
      { title: 'kind' },
    ],
    found.map(({ substance, line }) => [
      line.wavelengthNm.toFixed(2),
      substance,
      line.spectrum.slice(0, 20),
      line.colour,
      line.brightness ?? '',
      line.relativeIntensity === null ? '' : String(line.relativeIntensity),
      line.kind === 'line' ? '' : `band head${line.degraded === null ? '' : `, to ${line.degraded}`}`,
    ]),
  );
}
