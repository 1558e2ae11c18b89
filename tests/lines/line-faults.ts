/** What must hold for the line table; run by `npm run check:lines` and by the tests. */
import type { BrightnessFile } from '../../src/lines/brightness-file.ts';
import type { LineFile, LineRow, SpectrumRows } from '../../src/lines/line-file.ts';
import { plainWord } from '../../src/lines/plain-word.ts';
import type { TubeEntry, TubeFile } from '../../src/lines/tube-file.ts';
import { isReadable, readableNm } from '../../src/lines/visible.ts';

/** Two sources may differ by this before the row must say so, nm. */
const agreementNm = 0.0101;

function rowFaults(row: LineRow, spectrum: SpectrumRows, file: LineFile): string[] {
  const faults: string[] = [];
  if (!isReadable(row.nm)) faults.push(`lies outside ${readableNm.shortest} to ${readableNm.longest} nm`);
  if (!(row.source in file.sources)) faults.push(`names an unknown source "${row.source}"`);
  if (!['read', 'computed', 'memory'].includes(row.basis)) faults.push(`has an unknown basis "${row.basis}"`);
  if ((row.second === undefined) !== (row.secondSource === undefined))
    faults.push('needs a source with its second value');
  if (row.secondSource !== undefined && !(row.secondSource in file.sources))
    faults.push(`names an unknown second source "${row.secondSource}"`);
  if ((row.brightness === undefined) !== (row.graded === undefined))
    faults.push('needs to say where its brightness comes from');
  if (row.graded !== undefined && !(row.graded in file.gradings))
    faults.push(`names an unknown grading "${row.graded}"`);
  const scale = row.scale ?? spectrum.intensityScale;
  if (row.intensity !== undefined && (scale === null || !(scale in file.scales)))
    faults.push('has an intensity without a scale');
  if (row.intensity !== undefined && scale !== 'eye-estimate' && row.intensity <= 0)
    faults.push('has an intensity that is not above zero');
  const differs = row.second !== undefined && Math.abs(row.second - row.nm) > agreementNm;
  if ((differs || row.basis === 'memory') && row.doubt === undefined)
    faults.push('is doubtful and does not say so');
  if ((spectrum.kind === 'line') !== (spectrum.degraded === null))
    faults.push('must say to which side it shades off if and only if it is a band head');
  return faults;
}

function spectrumFaults(spectrum: SpectrumRows, file: LineFile): string[] {
  return spectrum.rows.flatMap((row, index) => {
    const faults = rowFaults(row, spectrum, file);
    const before = spectrum.rows[index - 1];
    if (before !== undefined && before.nm >= row.nm) faults.push('is out of order or listed twice');
    return faults.map((fault) => `${spectrum.spectrum} ${row.nm} nm ${fault}.`);
  });
}

/** Faults of data/lines.json as sentences; empty when all is well. */
export function lineFaults(file: LineFile): string[] {
  return file.spectra.flatMap((spectrum) => spectrumFaults(spectrum, file));
}

function aliasFaults(file: TubeFile): string[] {
  const owners = new Map<string, string>();
  const faults: string[] = [];
  const mixed = file.mixedLamps.map(({ name, aliases }) => ({ substance: name, symbol: name, aliases }));
  for (const tube of [...file.tubes, ...file.lampOnly, ...mixed]) {
    for (const word of new Set([tube.substance, tube.symbol, ...tube.aliases].map(plainWord))) {
      const owner = owners.get(word);
      if (owner !== undefined) faults.push(`"${word}" means both ${owner} and ${tube.substance}.`);
      owners.set(word, tube.substance);
    }
  }
  return faults;
}

/** Faults of data/tubes.json against the spectra of data/lines.json. */
export function tubeFaults(file: TubeFile, lines: LineFile): string[] {
  const spectra = new Map(lines.spectra.map((spectrum) => [spectrum.spectrum, spectrum]));
  const entries = [...file.tubes, ...file.lampOnly];
  const used = new Set(entries.flatMap((tube) => tube.parts.map((part) => part.spectrum)));
  const names = new Set(entries.map((tube) => tube.substance));
  const mentioned = [
    ...file.mixedLamps.flatMap((lamp) => lamp.substances),
    ...Object.keys(file.startingGases),
    ...Object.values(file.startingGases).flat(),
    ...file.usualImpurities,
    ...file.roomLight.map((light) => light.substance),
    ...file.unresolvedPairs.map((pair) => pair.substance),
  ];
  const places = new Set(lines.spectra.flatMap((spectrum) => spectrum.rows.map((row) => row.nm)));
  const components = file.unresolvedPairs.flatMap((pair) => pair.componentsNm);
  return [
    ...[...used].filter((name) => !spectra.has(name)).map((name) => `No spectrum is called ${name}.`),
    ...[...spectra.keys()].filter((name) => !used.has(name)).map((name) => `No tube shows ${name}.`),
    ...mentioned.filter((name) => !names.has(name)).map((name) => `No tube is called ${name}.`),
    ...components
      .filter((nm) => !places.has(nm))
      .map((nm) => `No line lies at ${nm} nm, named as one of a pair.`),
    ...entries.flatMap(componentFaults),
    ...aliasFaults(file),
  ];
}

function componentFaults({ substance, parts }: TubeEntry): string[] {
  const unlike = parts.filter(({ component, strengthSd }) =>
    parts.some((other) => other.component === component && other.strengthSd !== strengthSd),
  );
  return [
    ...unlike.map(({ component }) => `${substance}: the parts of "${component}" differ in strengthSd.`),
    ...(parts.every(({ strengthSd }) => strengthSd !== undefined)
      ? [`${substance}: no component is what the others are measured against.`]
      : []),
  ];
}

/** Faults of data/brightness.json: what it names must be there. */
export function brightnessFaults(file: BrightnessFile, tubes: TubeFile): string[] {
  const names = new Set(tubes.tubes.map((tube) => tube.substance));
  const said = new Set(file.statements.map(({ source }) => source));
  const isWeak = (source: string): boolean => source in file.weakSources;
  return [
    ...[...file.measured, ...file.statements, ...file.reads].flatMap(({ source, substance }) => [
      ...(source in file.sources ? [] : [`No source is called ${source}.`]),
      ...(names.has(substance) ? [] : [`No tube is called ${substance}.`]),
    ]),
    ...[...said]
      .filter((source) => isWeak(source) !== /unnamed|not known|no source/.test(file.sources[source] ?? ''))
      .map((source) => `${source}: whether it has a name is told differently in sources and in weakSources.`),
    ...Object.keys(file.weakSources)
      .filter((source) => !said.has(source))
      .map((source) => `weakSources names ${source}, which states nothing.`),
  ];
}

/** How many rows every spectrum has. */
export function rowCounts(file: LineFile): Readonly<Record<string, number>> {
  return Object.fromEntries(file.spectra.map(({ spectrum, rows }) => [spectrum, rows.length]));
}
