/** Observable Plot without a browser. The library wants a document to build its SVG in; linkedom is one. */
import * as Plot from '@observablehq/plot';
import { parseHTML } from 'linkedom';
import { lineSrgb } from '../../../lines/screen-colour.ts';

const { document } = parseHTML('<!doctype html><html><body></body></html>');

/** What is needed of the element; the compiler knows no browser. */
interface LinkedomElement {
  readonly outerHTML: string;
  querySelectorAll(selector: string): Iterable<{ remove(): void }>;
}

/** Width of every figure in its own units; the page scales it to the column. */
export const FIGURE_WIDTH = 700;

/** Of a figure that takes half the column: its letters are as large as those of the others. */
export const HALF_WIDTH = 400;

/** Black on white throughout: shapes, dashes and positions carry the meaning, colour only repeats it. */
export const ink = { main: '#111', soft: '#767676', faint: '#d4d4d4', band: '#e4e4e4' } as const;

/** The colour of a line as a style sheet writes it. */
export function fillOf(nm: number): string {
  const { r, g, b } = lineSrgb(nm);
  return `rgb(${r},${g},${b})`;
}

/** A figure of half the column over the wavelengths shown. */
export function drawOverNm(shown: readonly [number, number], options: Plot.PlotOptions): string {
  return drawSvg({
    width: HALF_WIDTH,
    marginBottom: 40,
    x: { domain: shown, label: 'wavelength (nm)', labelAnchor: 'center', labelArrow: 'none' },
    ...options,
  });
}

/** Coordinates to a hundredth: no one sees more, and the file stays light. */
function toHundredths(attribute: string): string {
  return attribute.replace(/\d+\.\d{3,}/g, (number) => String(Number(Number(number).toFixed(2))));
}

/** A figure as SVG text. The same options give the same text. */
export function drawSvg(options: Plot.PlotOptions): string {
  const drawn: unknown = Plot.plot({
    width: FIGURE_WIDTH,
    style: { fontFamily: "Arial, 'Liberation Sans', sans-serif", fontSize: '11px', color: ink.main },
    ...options,
    document,
  });
  const figure = drawn as LinkedomElement;
  // Plot's own style element repeats in every figure what the page's style sheet already says.
  for (const style of figure.querySelectorAll('style')) style.remove();
  return figure.outerHTML.replace(/="[^"]*"/g, toHundredths);
}
