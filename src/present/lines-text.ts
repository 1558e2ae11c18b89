/** Rows of the line table, for people and for scripts. */
import { provenanceOf } from '../lines/provenance.ts';
import type { FoundLine } from '../lines/search.ts';
import type { SpectralLine } from '../lines/spectrum.ts';
import { listedText } from './quantity-text.ts';
import { textTable } from './text-table.ts';

/** What `lines --json` prints for one line. */
export function lineObject({ substance, line }: FoundLine) {
  const { wavelengthNm, spectrum, kind, degraded, brightness, prominence, prominenceSd, component, colour } =
    line;
  const { relativeIntensity, intensityScale, brightnessBasis, brightnessWitnesses, source, basis, doubt } =
    provenanceOf(line);
  return {
    substance,
    wavelengthNm,
    spectrum,
    kind,
    degraded,
    component,
    relativeIntensity,
    intensityScale,
    brightness,
    brightnessBasis,
    brightnessWitnesses,
    prominence: Number(prominence.toFixed(2)),
    prominenceSd: Number(prominenceSd.toFixed(2)),
    color: colour,
    source,
    basis,
    doubt,
  };
}

/** What a line's brightness rests on, the best of it first; intensities of different scales are no brightness. */
function basisText(line: SpectralLine): string {
  const { brightnessBasis, brightnessWitnesses } = provenanceOf(line);
  const { laboratories, readIn, readOf } = brightnessWitnesses;
  switch (brightnessBasis) {
    case 'measured':
      return laboratories === 1 ? 'measured by 1 laboratory' : `measured by ${laboratories} laboratories`;
    case 'published':
      return 'published';
    case 'read counts':
      return `read by ${readIn} of ${readOf}`;
    case 'memory':
      return 'memory';
    case 'intensity':
      return 'intensity scale';
    case 'none':
      return 'not known';
  }
}

export function lineTableText(found: readonly FoundLine[]): string {
  return textTable(
    [
      { title: 'nm', align: 'right' },
      { title: 'tube' },
      { title: 'spectrum' },
      { title: 'colour' },
      { title: 'brightness' },
      { title: 'known from' },
      { title: 'band to' },
    ],
    found.map(({ substance, line }) => [
      listedText(line.wavelengthNm),
      substance,
      line.spectrum,
      line.colour,
      line.brightness ?? 'hardly seen',
      basisText(line),
      line.kind === 'line' ? '' : (line.degraded ?? 'none'),
    ]),
  );
}
