import { describe, expect, it } from 'vitest';
import { colourAt, colourNamed, colourRangeNm } from '../../src/lines/colour.ts';
import { colourMatching, lineSrgb } from '../../src/lines/screen-colour.ts';

describe('colourAt', () => {
  it.each([
    [404.66, 'violet'],
    [429.9, 'violet'],
    [435.83, 'blue-violet'],
    [450, 'blue'],
    [486.13, 'blue-green'],
    [500, 'green'],
    [546.07, 'green'],
    [568.8, 'yellow-green'],
    [589.3, 'yellow'],
    [592, 'orange'],
    [640.22, 'red'],
    [706.5, 'deep red'],
  ] as const)('%f nm is %s', (nm, colour) => {
    expect(colourAt(nm)).toBe(colour);
  });
});

describe('colourNamed', () => {
  it.each([
    ['red', 'red'],
    ['Dark Red', 'deep red'],
    ['light blue', 'blue'],
    ['turquoise', 'blue-green'],
    ['cyan', 'blue-green'],
    ['Blue–Green', 'blue-green'],
    ['greenish-blue', 'blue-green'],
    ['indigo', 'blue-violet'],
    ['purple', 'violet'],
    ['yellow-green', 'yellow-green'],
    ['amber', 'orange'],
    ['Grün', 'green'],
    ['türkis', 'blue-green'],
    ['jaune', 'yellow'],
    ['rouge foncé', 'deep red'],
    ['amarillo', 'yellow'],
    ['  GREEN ', 'green'],
  ] as const)('%s means %s', (word, colour) => {
    expect(colourNamed(word)).toBe(colour);
  });

  it.each(['', 'bright', 'grey', 'gray', 'mauvish-tartan', 'constructor'])(
    '"%s" is no colour of a line',
    (word) => {
      expect(colourNamed(word)).toBeNull();
    },
  );
});

describe('colourRangeNm', () => {
  it('lets 435.8 nm be blue to one and violet to the other', () => {
    for (const name of ['blue', 'violet', 'blue-violet'] as const) {
      const { fromNm, toNm } = colourRangeNm(name);
      expect(fromNm).toBeLessThan(435.8);
      expect(toNm).toBeGreaterThan(435.8);
    }
  });

  it.each([400, 440, 465, 490, 530, 570, 585, 605, 650, 720])(
    'the range of the colour at %i nm holds it',
    (nm) => {
      const { fromNm, toNm } = colourRangeNm(colourAt(nm));
      expect(fromNm).toBeLessThan(nm - 10);
      expect(toNm).toBeGreaterThan(nm + 10);
    },
  );

  it('keeps what no eye confuses apart', () => {
    expect(colourRangeNm('red').fromNm).toBeGreaterThan(589.3);
    expect(colourRangeNm('green').toNm).toBeLessThan(589);
    expect(colourRangeNm('yellow').fromNm).toBeGreaterThan(546.1);
    expect(colourRangeNm('orange').toNm).toBeLessThan(640);
  });
});

describe('colour on the screen', () => {
  // CIE 1931 2-degree observer, ISO/CIE 11664-1, values from memory of the published table.
  it.each([
    [450, [0.3362, 0.038, 1.7721]],
    [500, [0.0049, 0.323, 0.272]],
    [555, [0.5121, 1.0, 0.0057]],
    [600, [1.0622, 0.631, 0.0008]],
    [650, [0.2835, 0.107, 0.0]],
  ] as const)('the fit of the colour-matching functions at %i nm is good to 0.06', (nm, table) => {
    const fit = colourMatching(nm);
    table.forEach((value, index) => {
      expect(Math.abs(fit[index]! - value)).toBeLessThan(0.06);
    });
  });

  it('has the hue one sees', () => {
    const [violet, blue, green, yellow, red] = [405, 465, 546, 578, 656].map(lineSrgb);
    expect(violet!.b).toBeGreaterThan(violet!.r);
    expect(violet!.r).toBeGreaterThan(violet!.g);
    expect(blue!.b).toBeGreaterThan(Math.max(blue!.r, blue!.g));
    expect(green!.g).toBeGreaterThan(Math.max(green!.r, green!.b));
    expect(Math.min(yellow!.r, yellow!.g)).toBeGreaterThan(150);
    expect(red!.r).toBeGreaterThan(150);
    expect(red!.g + red!.b).toBeLessThan(20);
  });

  it('stays within the screen and never too dark to see', () => {
    for (let nm = 380; nm <= 780; nm += 2) {
      const { r, g, b } = lineSrgb(nm);
      for (const part of [r, g, b]) {
        expect(Number.isInteger(part)).toBe(true);
        expect(part).toBeGreaterThanOrEqual(0);
        expect(part).toBeLessThanOrEqual(255);
      }
      expect(Math.max(r, g, b)).toBeGreaterThanOrEqual(150);
    }
  });
});
