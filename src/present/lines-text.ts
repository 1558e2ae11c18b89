/** Rows of the line table, for people and for scripts. */
import type { FoundLine } from '../lines/search.ts';
import { listedText } from './quantity-text.ts';
import { textTable } from './text-table.ts';

/** What `lines --json` prints for one line. */
export function lineObject({ substance, line }: FoundLine) {
  const { wavelengthNm, spectrum, kind, degraded, relativeIntensity, brightness, colour } = line;
  return {
    substance,
    wavelengthNm,
    spectrum,
    kind,
    degraded,
    relativeIntensity,
    brightness,
    color: colour,
    source: line.source,
    basis: line.basis,
    doubt: line.doubt,
  };
}

export function lineTableText(found: readonly FoundLine[]): string {
  return textTable(
    [
      { title: 'nm', align: 'right' },
      { title: 'tube' },
      { title: 'spectrum' },
      { title: 'colour' },
      { title: 'eye' },
      { title: 'scale', align: 'right' },
      { title: 'band to' },
    ],
    found.map(({ substance, line }) => [
      listedText(line.wavelengthNm),
      substance,
      line.spectrum,
      line.colour,
      line.brightness ?? '',
      line.relativeIntensity === null ? '' : String(line.relativeIntensity),
      line.kind === 'line' ? '' : (line.degraded ?? 'none'),
    ]),
  );
}
