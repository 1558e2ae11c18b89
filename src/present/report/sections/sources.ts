/** Where the listed wavelengths come from: the published sources of the lines that this report uses. */
import type { Analysis, ToldCalibrationLine } from '../../../analysis/types.ts';

import { provenanceOf, sourceText } from '../../../lines/provenance.ts';
import { isPairMean, isSameLine } from '../../../lines/same-line.ts';
import type { LineProvenance, SpectralLine } from '../../../lines/spectrum.ts';
import { tubeNamed, unresolvedPairs } from '../../../lines/table.ts';
import { listedText } from '../../quantity-text.ts';
import { type Block, blocksOf, list, paragraph, type Section, table } from '../document.ts';

const basisText: Readonly<Record<LineProvenance['basis'], string>> = {
  read: 'read in the source',
  computed: 'computed from its constants',
  memory: 'from memory',
};

interface UsedLine {
  readonly as: string;
  readonly line: SpectralLine;
}

export function sourcesSection(analysis: Analysis): Section {
  const known = analysis.calibration.lines.flatMap((line) => listedKnownLine(line, analysis));
  const used = [...known, ...matchedLines(analysis)];
  const unique = new Map(
    used.map((entry) => [`${entry.as} ${entry.line.spectrum} ${entry.line.wavelengthNm}`, entry]),
  );
  const entries = [...unique.values()]
    .sort((a, b) => a.line.wavelengthNm - b.line.wavelengthNm)
    .map((entry) => ({ ...entry, provenance: provenanceOf(entry.line) }));
  const sources = [...new Set(entries.map(({ provenance }) => provenance.source))].sort();
  return {
    title: 'Where the line data come from',
    isSmall: true,
    blocks: blocksOf(
      table(
        'line sources',
        'The listed lines used in this report, in standard air, each with the source it rests on.',
        ['lines (nm)', 'spectrum', 'used for', 'source', 'basis', 'doubt'],
        grouped(
          entries.map(({ as, line, provenance }) => [
            String(line.wavelengthNm),
            line.spectrum,
            as,
            provenance.source,
            basisText[provenance.basis],
            provenance.doubt ?? '',
          ]),
        ),
      ),
      list(sources.map((source) => `${source}: ${sourceText(source)}`)),
      unlistedSentence(analysis),
    ),
  };
}

/** Rows that differ in their first cell only become one. */
function grouped(rows: readonly (readonly string[])[]): string[][] {
  const groups = new Map<string, { firsts: string[]; rest: readonly string[] }>();
  for (const [first = '', ...rest] of rows) {
    const key = JSON.stringify(rest);
    const group = groups.get(key) ?? { firsts: [], rest };
    group.firsts.push(first);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ firsts, rest }) => [firsts.join(', '), ...rest]);
}

function listedKnownLine({ lampIndex, wavelengthNm }: ToldCalibrationLine, { bench }: Analysis): UsedLine[] {
  return wavelengthNm === null
    ? []
    : listedLine(bench.known[lampIndex]?.substances ?? [], wavelengthNm, 'calibration');
}

/** A stated wavelength may come from the laboratory's own table: the report says which do. */
function unlistedSentence(analysis: Analysis): Block | null {
  const own = analysis.calibration.lines.filter(
    (line) => line.wavelengthNm !== null && listedKnownLine(line, analysis).length === 0,
  );
  const named = own.map(({ wavelengthNm }) => listedText(wavelengthNm)).join(', ');
  return own.length === 0
    ? null
    : paragraph(
        `Not in the line table for this lamp, so taken from the record without a source: ${named} nm.`,
      );
}

function matchedLines({ tubes }: Analysis): UsedLine[] {
  return tubes.flatMap((tube) => {
    const leading = tube.candidates[0];
    if (leading === undefined) return [];
    const names = [leading.substance, ...leading.with];
    return leading.matches.flatMap(({ wavelengthNm }) => listedLine(names, wavelengthNm, tube.label));
  });
}

/** The nearest listed line of these substances, or both lines of a pair that the prism shows as one. */
function listedLine(substances: readonly string[], wavelengthNm: number, as: string): UsedLine[] {
  const pair = unresolvedPairs.find(
    ({ substance, quotedNm }) => substances.includes(substance) && isPairMean(wavelengthNm, quotedNm),
  );
  return pair === undefined
    ? nearestLine(substances, wavelengthNm, as)
    : pair.componentsNm.flatMap((nm) =>
        nearestLine(substances, nm, `${as}, unresolved pair ${pair.quotedNm}`),
      );
}

function nearestLine(substances: readonly string[], wavelengthNm: number, as: string): UsedLine[] {
  const nearest = substances
    .flatMap((name) => tubeNamed(name)?.lines ?? [])
    .map((line) => ({ line, distance: Math.abs(line.wavelengthNm - wavelengthNm) }))
    .filter(({ line }) => isSameLine(line.wavelengthNm, wavelengthNm))
    .sort((a, b) => a.distance - b.distance || b.line.prominence - a.line.prominence)[0];
  return nearest === undefined ? [] : [{ as, line: nearest.line }];
}
