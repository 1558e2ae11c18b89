import { describe, expect, it } from 'vitest';
import { findLamp, findTube } from '../../src/lines/names.ts';
import { searchLines } from '../../src/lines/search.ts';
import { tubeNamed, tubes } from '../../src/lines/table.ts';

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
  const foundLines = (query: string) => {
    const search = searchLines(query);
    if (!('found' in search)) throw new Error(`nothing for ${query}`);
    return search.found;
  };

  it('finds a tube by name, symbol and alias', () => {
    for (const [query, substance] of [
      ['neon', 'neon'],
      ['Hg', 'mercury'],
      ['sulphur', 'sulfur'],
    ] as const)
      expect(foundLines(query)).toEqual(tubeNamed(substance)!.lines.map((line) => ({ substance, line })));
  });

  it('finds a spectrum', () => {
    expect(foundLines('he i')).toHaveLength(19);
    for (const [query, spectrum] of [
      ['he i', 'He I'],
      ['N2+ first negative', 'N2+ first negative'],
      ['N2 first positive', 'N2 first positive'],
    ] as const)
      for (const { substance, line } of foundLines(query))
        expect([substance, line.spectrum]).toEqual([spectrum, spectrum]);
  });

  it.each(['587.6', '587,6', '587.6 nm'])('finds the lines nearest to %s', (query) => {
    const found = foundLines(query);
    expect(found).toHaveLength(12);
    expect(found[0]).toMatchObject({ substance: 'helium', line: { wavelengthNm: 587.5615 } });
    const distances = found.map(({ line }) => Math.abs(line.wavelengthNm - 587.6));
    expect(distances).toEqual([...distances].sort((a, b) => a - b));
  });

  it.each([
    ['yellow', 'yellow'],
    ['Blue-Green', 'blue-green'],
    ['rouge', 'red'],
  ])('finds the lines that are %s', (query, colour) => {
    const found = foundLines(query);
    expect(found.length).toBeGreaterThan(20);
    expect(new Set(found.map(({ line }) => line.colour))).toEqual(new Set([colour]));
    if (query === 'yellow') {
      const ofHelium = found.filter(({ substance }) => substance === 'helium');
      expect(ofHelium.map(({ line }) => line.wavelengthNm)).toContain(587.5615);
    }
  });

  it('suggests where nothing fits, lamps too', () => {
    expect(searchLines('heluim')).toEqual({ suggestions: ['helium'] });
    expect(searchLines('flourescent lamp')).toEqual({ suggestions: ['fluorescent lamp'] });
  });
});
