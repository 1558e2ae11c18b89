import { describe, expect, it } from 'vitest';
import { findLamp, findTube } from '../../src/lines/names.ts';
import { searchLines } from '../../src/lines/search.ts';
import { tubes } from '../../src/lines/table.ts';

describe('findTube', () => {
  it.each(tubes.map((tube) => [tube.substance, tube.symbol] as const))(
    'knows %s and %s',
    (substance, symbol) => {
      for (const text of [substance, symbol, substance.toUpperCase(), ` ${substance} `, `${substance} tube`])
        expect(findTube(text)).toEqual({ substance });
    },
  );

  it.each([
    ['sulphur', 'sulfur'],
    ['cesium', 'caesium'],
    ['Cäsium', 'caesium'],
    ['water vapor', 'water vapour'],
    ['water-vapour', 'water vapour'],
    ['carbonic acid', 'carbon dioxide'],
    ['CO', 'carbon dioxide'],
    ['CO₂', 'carbon dioxide'],
    ['natrium', 'sodium'],
    ['Quecksilber', 'mercury'],
    ['N', 'nitrogen'],
    ['Hg lamp', 'mercury'],
    ['Geissler tube (neon)', 'neon'],
    ['HgCd', 'mercury-cadmium'],
    ['cadmium with mercury', 'mercury-cadmium'],
    ['Hg/Cd lamp', 'mercury-cadmium'],
    ['HgCdZn', 'mercury-zinc-cadmium'],
    ['pen lamp', 'mercury-argon'],
  ])('%s means %s', (text, substance) => {
    expect(findTube(text)).toEqual({ substance });
  });

  it.each([
    ['heluim', 'helium'],
    ['noen', 'neon'],
    ['mercry', 'mercury'],
    ['argn', 'argon'],
    ['oxigen', 'oxygen'],
    ['sodiun', 'sodium'],
    ['krypon', 'krypton'],
    ['nitrogn', 'nitrogen'],
    ['carbon dixoide', 'carbon dioxide'],
    ['mercury-cadmum', 'mercury-cadmium'],
  ])('for %s it suggests %s first', (text, substance) => {
    const found = findTube(text);
    expect('suggestions' in found && found.suggestions[0]).toBe(substance);
  });

  it('suggests nothing for what resembles no name', () => {
    expect(findTube('xyzzy')).toEqual({ suggestions: [] });
    expect(findTube('')).toEqual({ suggestions: [] });
    expect(findTube('★')).toEqual({ suggestions: [] });
  });
});

describe('findLamp', () => {
  it.each([
    ['mercury', ['mercury']],
    ['mercury-cadmium', ['mercury', 'cadmium']],
    ['HgCd', ['mercury', 'cadmium']],
    ['Hg/Cd', ['mercury', 'cadmium']],
    ['Hg + Cd', ['mercury', 'cadmium']],
    ['Hg-Cd lamp', ['mercury', 'cadmium']],
    ['zinc-cadmium', ['zinc', 'cadmium']],
    ['argon with mercury', ['mercury', 'argon']],
    ['mercury and helium', ['mercury', 'helium']],
    ['sodium + sodium', ['sodium']],
    ['carbon dioxide', ['carbon dioxide']],
    ['CO', ['carbon dioxide']],
    ['fluorescent lamp', ['mercury', 'argon', 'rare-earth phosphors']],
  ])('%s holds %j', (text, substances) => {
    expect(findLamp(text)).toEqual({ substances });
  });

  it.each([
    ['heluim', 'helium'],
    ['cadmum-mercury', 'cadmium-mercury'],
    ['Hg + cadmuim', 'mercury-cadmium'],
  ])('for %s it suggests %s', (text, suggestion) => {
    const found = findLamp(text);
    expect('suggestions' in found && found.suggestions[0]).toBe(suggestion);
  });

  it('does not take a piece it does not know for a lamp', () => {
    expect('suggestions' in findLamp('mercury-xyzzy')).toBe(true);
    expect(findLamp('')).toEqual({ suggestions: [] });
  });
});

describe('searchLines', () => {
  it('finds a tube by name, symbol and alias', () => {
    expect(searchLines('neon')).toMatchObject({ kind: 'tube', substance: 'neon' });
    expect(searchLines('Hg')).toMatchObject({ kind: 'tube', substance: 'mercury' });
    expect(searchLines('sulphur')).toMatchObject({ kind: 'tube', substance: 'sulfur' });
  });

  it('finds a spectrum', () => {
    const found = searchLines('he i');
    expect(found).toMatchObject({ kind: 'spectrum', spectrum: 'He I' });
    expect(found.kind === 'spectrum' && found.lines.length).toBe(19);
    expect(searchLines('N2+ first negative')).toMatchObject({ spectrum: 'N2+ first negative' });
    expect(searchLines('N2 first positive')).toMatchObject({ spectrum: 'N2 first positive' });
  });

  it.each(['587.6', '587,6', '587.6 nm'])('finds the lines nearest to %s', (query) => {
    const found = searchLines(query);
    if (found.kind !== 'wavelength') throw new Error(found.kind);
    expect(found.near[0]).toMatchObject({ substance: 'helium', line: { wavelengthNm: 587.5615 } });
    expect(found.near[0]!.distanceNm).toBeCloseTo(-0.0385, 6);
    const distances = found.near.map((each) => Math.abs(each.distanceNm));
    expect(distances).toEqual([...distances].sort((a, b) => a - b));
  });

  it.each([
    ['yellow', 'yellow'],
    ['Blue-Green', 'blue-green'],
    ['rouge', 'red'],
  ])('finds the lines that are %s', (query, colour) => {
    const search = searchLines(query);
    if (search.kind !== 'colour') throw new Error(search.kind);
    expect(search.found.length).toBeGreaterThan(20);
    expect(new Set(search.found.map(({ line }) => line.colour))).toEqual(new Set([colour]));
    if (query === 'yellow') {
      const ofHelium = search.found.filter(({ substance }) => substance === 'helium');
      expect(ofHelium.map(({ line }) => line.wavelengthNm)).toContain(587.5615);
    }
  });

  it('suggests where nothing fits, lamps too', () => {
    expect(searchLines('heluim')).toEqual({ kind: 'nothing', suggestions: ['helium'] });
    expect(searchLines('flourescent lamp')).toEqual({ kind: 'nothing', suggestions: ['fluorescent lamp'] });
  });
});
