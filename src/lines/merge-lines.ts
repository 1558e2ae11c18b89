/** The lines of several spectra, or tubes, together. */
import type { TubeLine, TubeSpectrum } from './spectrum.ts';

/** Two entries of one tube closer than this are one line listed twice. */
const sameLineNm = 0.005;

/** Sorted by wavelength; of lines listed twice the more prominent stays. */
export function mergedSpectra(lines: readonly TubeLine[]): TubeLine[] {
  const kept: TubeLine[] = [];
  for (const line of [...lines].sort((a, b) => a.wavelengthNm - b.wavelengthNm)) {
    const last = kept.at(-1);
    if (last === undefined || line.wavelengthNm - last.wavelengthNm > sameLineNm) kept.push(line);
    else if (line.prominence > last.prominence) kept[kept.length - 1] = line;
  }
  return kept;
}

/** What several tubes show in one, their components apart: those of all but the first carry the substance's name. */
export function joinedTubes(tubes: readonly TubeSpectrum[]): Pick<TubeSpectrum, 'components' | 'lines'> {
  const nameIn = (tube: TubeSpectrum, component: string): string =>
    tube === tubes[0] ? component : `${tube.substance}, ${component}`;
  return {
    components: tubes.flatMap((tube) =>
      tube.components.map((component) => ({ ...component, name: nameIn(tube, component.name) })),
    ),
    lines: tubes
      .flatMap((tube) => tube.lines.map((line) => ({ ...line, component: nameIn(tube, line.component) })))
      .sort((a, b) => a.wavelengthNm - b.wavelengthNm),
  };
}
