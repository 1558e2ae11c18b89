import { describe, expect, it } from 'vitest';
import { isWorthLooking, wantedLines } from '../../src/analysis/predict.ts';
import { brightnessWord } from '../../src/lines/grade-prominence.ts';
import { tubeNamed, tubes } from '../../src/lines/table.ts';
import { lineObject } from '../../src/present/lines-text.ts';

const all = tubes.flatMap(({ substance, lines }) => lines.map((line) => ({ substance, line })));

describe('the word for how bright a line is', () => {
  it('is that of the number beside it, in every row of the table as it is printed', () => {
    const objects = all.map(lineObject);
    expect(objects.length).toBeGreaterThan(1500);
    expect(
      objects.filter(({ brightness, brightnessLn }) => brightness !== brightnessWord(brightnessLn)),
    ).toEqual([]);
  });

  it('is the same on a crib sheet as in the table', () => {
    for (const { substance, lines } of tubes) {
      const onSheet = wantedLines(substance);
      expect(onSheet.map(({ wavelengthNm }) => wavelengthNm)).toEqual(
        lines
          .filter(isWorthLooking)
          .map(({ wavelengthNm }) => wavelengthNm)
          .reverse(),
      );
      for (const { wavelengthNm, brightness } of onSheet) {
        const listed = lines.find((line) => line.wavelengthNm === wavelengthNm)!;
        expect([substance, wavelengthNm, brightness]).toEqual([substance, wavelengthNm, listed.brightness]);
      }
    }
  });

  it('of a faint tube follows the eye that adapts to it, like the chances', () => {
    for (const nm of [500.62, 588.38])
      expect(tubeNamed('oxygen')!.lines.find(({ wavelengthNm }) => wavelengthNm === nm)?.brightness).toBe(
        'weak',
      );
  });

  it('is the grade where nothing else is known, half-way between grades the fainter', () => {
    expect([0, -1.3, -2.6, -3.4].map(brightnessWord)).toEqual(['strong', 'medium', 'weak', null]);
    expect([-0.65, -1.95, -3.25].map(brightnessWord)).toEqual(['medium', 'weak', null]);
  });
});
