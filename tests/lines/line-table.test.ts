import { describe, expect, it } from 'vitest';
import { brightnessFile } from '../../src/lines/brightness-file.ts';
import { type LineFile, lineFile } from '../../src/lines/line-file.ts';
import { provenanceOf, sourceText } from '../../src/lines/provenance.ts';
import {
  lampSpectrum,
  spectraOnShelf,
  startingGases,
  tubeNamed,
  tubes,
  unresolvedPairs,
  usualImpurities,
} from '../../src/lines/table.ts';
import { type TubeFile, tubeFile } from '../../src/lines/tube-file.ts';
import { readableNm } from '../../src/lines/visible.ts';
import { brightnessFaults, lineFaults, rowCounts, tubeFaults } from './line-faults.ts';

/** How many lines or heads were gathered per spectrum, counted apart from the file. */
const gatheredRows = {
  'H I': 7,
  'D I': 7,
  'He I': 19,
  'He II': 3,
  'Ne II': 25,
  'Ne I': 76,
  'Ar II': 95,
  'Ar I': 105,
  'Kr II': 61,
  'Kr I': 51,
  'Xe II': 112,
  'Xe I': 49,
  'Hg II': 10,
  'Hg I': 23,
  'Na I': 17,
  'Cd II': 9,
  'Cd I': 14,
  'Zn I': 14,
  'Zn II': 6,
  'K I': 39,
  'Li I': 5,
  'Rb I': 14,
  'Cs I': 26,
  'Tl I': 3,
  'In I': 6,
  'Mg I': 14,
  'Mg II': 5,
  'Ca II': 4,
  'Ca I': 36,
  'Sr I': 35,
  'Sr II': 4,
  'Ba II': 10,
  'Ba I': 18,
  'I I': 22,
  'I II': 13,
  'Br II': 14,
  'Br I': 30,
  'Cl II': 27,
  'Cl I': 16,
  'O II': 19,
  'O I': 23,
  'N II': 26,
  'N I': 14,
  'C II': 11,
  'C I': 9,
  'S II': 11,
  'S I': 8,
  H2: 56,
  'N2 second positive': 19,
  'N2+ first negative': 14,
  'N2 first positive': 24,
  'O2+ first negative': 14,
  'CO Herzberg': 5,
  'CO third positive': 1,
  'CO+ comet tail': 24,
  'CO Angstrom': 8,
  'CO triplet': 5,
  'C2 Swan': 15,
  'CN violet': 6,
  'CH 430 nm': 1,
  'Tb and Eu phosphors': 5,
};

const tubeNames =
  'hydrogen deuterium helium neon argon krypton xenon mercury sodium potassium lithium rubidium caesium magnesium ' +
  'calcium strontium barium cadmium zinc indium thallium sulfur chlorine bromine iodine nitrogen oxygen';

describe('the files', () => {
  it('have no fault', () => {
    expect(lineFaults(lineFile)).toEqual([]);
    expect(tubeFaults(tubeFile, lineFile)).toEqual([]);
    expect(brightnessFaults(brightnessFile, tubeFile)).toEqual([]);
  });

  it('hold every row that was gathered', () => {
    expect(rowCounts(lineFile)).toEqual(gatheredRows);
  });

  it('carry a source of at least a sentence for every row', () => {
    const rows = lineFile.spectra.flatMap((spectrum) => spectrum.rows);
    expect(rows.filter((row) => sourceText(row.source).length < 20 && row.source !== 'memory')).toEqual([]);
    expect(rows.filter((row) => sourceText(row.source) === row.source)).toEqual([]);
  });

  const firstRow = lineFile.spectra[0]!.rows[0]!;
  const withRow = (row: object): LineFile => ({
    ...lineFile,
    spectra: [{ ...lineFile.spectra[0]!, rows: [{ ...firstRow, ...row }] }],
  });

  it.each([
    [{ nm: 300 }, 'outside 380 to 800'],
    [{ source: 'somewhere' }, 'unknown source'],
    [{ basis: 'guess' }, 'unknown basis'],
    [{ second: 390, secondSource: 'asd-air' }, 'doubtful'],
    [{ basis: 'memory' }, 'doubtful'],
    [{ secondSource: undefined }, 'second value'],
    [{ scale: 'photographic' }, 'without a scale'],
    [{ intensity: 0 }, 'not above zero'],
    [{ brightness: 'strong' }, 'where its brightness comes from'],
  ])('would be faulted for a row with %j', (row, fault) => {
    expect(lineFaults(withRow(row)).join()).toContain(fault);
  });

  it('would be faulted for rows out of order, and for names that lead nowhere', () => {
    const twice = { ...lineFile, spectra: [{ ...lineFile.spectra[0]!, rows: [firstRow, firstRow] }] };
    expect(lineFaults(twice).join()).toContain('listed twice');
    const astray: TubeFile = { ...tubeFile, usualImpurities: ['phlogiston'], tubes: tubeFile.tubes.slice(1) };
    const faults = tubeFaults(astray, lineFile).join();
    expect(faults).toContain('No tube is called phlogiston');
    expect(faults).toContain('No tube shows H2');
  });
});

describe('tubes', () => {
  it('have the names that records and results use', () => {
    const expected = [...tubeNames.split(' '), 'carbon dioxide', 'water vapour', 'air'];
    expect(tubes.map((tube) => tube.substance)).toEqual(expected);
  });

  it.each(tubes.map((tube) => [tube.substance, tube] as const))(
    '%s is sorted, in range and without doubles',
    (_, tube) => {
      const places = tube.lines.map((line) => line.wavelengthNm);
      expect(places.length).toBeGreaterThan(2);
      expect(places[0]).toBeGreaterThanOrEqual(readableNm.shortest);
      expect(places.at(-1)).toBeLessThanOrEqual(readableNm.longest);
      places.slice(1).forEach((nm, index) => {
        expect(nm - places[index]!).toBeGreaterThan(0.005);
      });
    },
  );

  it.each([
    ['hydrogen', 'H2'],
    ['helium', 'He II'],
    ['argon', 'Ar II'],
    ['nitrogen', 'N I'],
    ['oxygen', 'O II'],
    ['carbon dioxide', 'CO+ comet tail'],
  ])('%s never misses %s', (substance, spectrum) => {
    const lines = tubeNamed(substance)!.lines.filter((line) => line.spectrum === spectrum);
    expect(lines.length).toBeGreaterThan(0);
    expect(lines.every((line) => !line.expected)).toBe(true);
  });

  it('an unknown name is no tube', () => {
    expect(tubeNamed('phlogiston')).toBeUndefined();
    expect(lampSpectrum(['phlogiston']).lines).toEqual([]);
  });

  it('a mixed lamp shows the lines of its parts in order', () => {
    const lamp = lampSpectrum(['mercury', 'cadmium']);
    expect(lamp.substance).toBe('mercury-cadmium');
    expect(lamp.symbol).toBe('Hg-Cd');
    const places = lamp.lines.map((line) => line.wavelengthNm);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places).toEqual(expect.arrayContaining([435.8328, 546.0735, 508.5822, 643.847]));
    expect(lamp.lines.length).toBe(tubeNamed('mercury')!.lines.length + tubeNamed('cadmium')!.lines.length);
  });

  it('a shelf with a mixed lamp has each of its spectra once', () => {
    const shown = spectraOnShelf(['mercury-cadmium', 'mercury', 'fluorescent lamp', 'neon']);
    expect(shown.map(({ substance }) => substance)).toEqual([
      'mercury',
      'cadmium',
      'argon',
      'rare-earth phosphors',
      'neon',
    ]);
  });

  it('a line that a mixed lamp is only taken to show fainter is not said to be measured so', () => {
    const argon = (name: string) =>
      tubeNamed(name)!.lines.find(({ wavelengthNm }) => wavelengthNm === 415.859)!;
    expect(provenanceOf(argon('argon')).brightnessBasis).toBe('measured');
    expect(argon('mercury-argon').brightnessLn).toBeLessThan(argon('argon').brightnessLn);
    expect(provenanceOf(argon('mercury-argon')).brightnessBasis).toBe('practice');
  });

  it('a mixed lamp as a tube says of each line whose it is', () => {
    const lamp = tubeNamed('mercury-argon')!;
    const ofGas = lamp.lines.filter(({ substance }) => substance === 'argon');
    expect(ofGas.length + lamp.lines.filter(({ substance }) => substance === 'mercury').length).toBe(
      lamp.lines.length,
    );
    // The gas is fainter than in a tube of its own, and by how much is open.
    const brightest = (lines: readonly { prominence: number }[]) =>
      Math.max(...lines.map(({ prominence }) => prominence));
    expect(brightest(ofGas)).toBeCloseTo(brightest(tubeNamed('argon')!.lines) - 1.5, 9);
    expect(lamp.components.find(({ name }) => name === 'argon, atom')!.strengthSd).toBeGreaterThan(0);
    expect(lamp.components.find(({ name }) => name === 'atom')!.strengthSd).toBe(0);
  });

  it('a lamp of one substance is that tube', () => {
    expect(lampSpectrum(['helium'])).toBe(tubeNamed('helium'));
  });

  it('the wavelength quoted for a pair lies between its lines, within 0.15 nm of their mean', () => {
    for (const { quotedNm, componentsNm } of unresolvedPairs) {
      const [first, second] = componentsNm;
      expect(quotedNm).toBeGreaterThan(first!);
      expect(quotedNm).toBeLessThan(second!);
      expect(Math.abs(quotedNm - (first! + second!) / 2)).toBeLessThan(0.15);
    }
  });

  it('metal lamps start with a rare gas, other tubes do not', () => {
    expect(startingGases('sodium')).toEqual(['neon', 'argon']);
    expect(startingGases('mercury')).toEqual(['argon']);
    expect(startingGases('helium')).toEqual([]);
    expect(usualImpurities).toContain('hydrogen');
  });
});

describe('rows that need care', () => {
  const line = (substance: string, nm: number) =>
    tubeNamed(substance)!.lines.find((each) => Math.abs(each.wavelengthNm - nm) < 0.01)!;

  it('computed bands carry a wide uncertainty of place', () => {
    const widest = tubeNamed('carbon dioxide')!.lines.filter((each) => each.uNm >= 0.3);
    expect(new Set(widest.map((each) => each.spectrum))).toEqual(
      new Set(['CO third positive', 'CO+ comet tail', 'CO triplet']),
    );
    expect(line('helium', 587.5615).uNm).toBeLessThan(0.01);
  });

  it('a line from memory says so', () => {
    expect(line('hydrogen', 463.4).spectrum).toBe('H2');
    const provenance = provenanceOf(line('hydrogen', 463.4));
    expect(provenance).toMatchObject({ basis: 'memory', source: 'h2-memory' });
    expect(provenance.doubt).toContain('memory');
  });

  it('the red CO band stands where computation and memory put it', () => {
    expect(line('carbon dioxide', 661.97).degraded).toBe('violet');
    const provenance = provenanceOf(line('carbon dioxide', 661.97));
    expect(provenance.basis).toBe('computed');
    expect(provenance.doubt).toContain('662.3');
  });

  it('intensities on different scales are told apart', () => {
    expect(provenanceOf(line('neon', 585.2488)).intensityScale).toBe('srd108');
    expect(provenanceOf(line('neon', 743.8898)).intensityScale).toBe('asd');
    expect(provenanceOf(line('nitrogen', 405.8)).intensityScale).toBe('eye-estimate');
  });
});
