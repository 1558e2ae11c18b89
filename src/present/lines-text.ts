/** Rows of the line table, for people and for scripts. */
import { provenanceOf } from '../lines/provenance.ts';
import type { FoundLine } from '../lines/search.ts';
import { listedText } from './quantity-text.ts';
import { textTable } from './text-table.ts';

/** What `lines --json` prints for one line. */
export function lineObject({ substance, line }: FoundLine) {
  const { wavelengthNm, spectrum, kind, degraded, brightness, colour } = line;
  const { relativeIntensity, source, basis, doubt } = provenanceOf(line);
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
      String(provenanceOf(line).relativeIntensity ?? ''),
      line.kind === 'line' ? '' : (line.degraded ?? 'none'),
    ]),
  );
}
