/** The report as a browser lays it out and prints it, on both paper sizes. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'parse5';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { formatAngle } from '../../src/angle/format-angle.ts';
import { renderReport } from '../../src/present/report/write-report.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { cataloguePrism, minimumDeviationArcmin } from '../score/prism.ts';
import { analysis } from './fixture.ts';
import { elements, textOf } from './html-tree.ts';

const browser = 'chromium';
const available = spawnSync(browser, ['--version']).status === 0;
if (!available) console.warn('No chromium here: the printed report is not looked at.');

const GIVE_UP = { timeout: 60_000, interval: 100 };
const folder = mkdtempSync(join(tmpdir(), 'report-'));
// The browser leaves processes behind that write into the folder for a moment yet.
afterAll(() => vi.waitFor(() => rmSync(folder, { recursive: true, force: true }), GIVE_UP));

const quiet =
  '--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync'.split(
    ' ',
  );

function runBrowser(name: string, ...args: string[]): string {
  const profile = mkdtempSync(join(folder, `${name}-`));
  const { stdout, error } = spawnSync(browser, [...quiet, `--user-data-dir=${profile}`, ...args], {
    encoding: 'utf8',
    timeout: GIVE_UP.timeout,
    maxBuffer: 2 ** 26,
  });
  if (error) throw error;
  return stdout;
}

/** Paper in mm, less the margins of the style sheet. */
const papers = {
  A4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
};
const marginsMm = { across: 28, along: 26 };

/** Runs in the page, once for each paper: what sticks out, what is taller than a page, which labels overlap. */
const inspection = `
const boxes = (selector, root = document) => [...root.querySelectorAll(selector)].map((node) => ({ box: node.getBoundingClientRect(), text: node.textContent }));
const overlap = (a, b) => Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left) > 1.5
  && Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top) > 1.5;
const found = PAPERS.map(({ width, height }) => {
  document.body.style.width = width + 'px';
  const body = document.body.getBoundingClientRect();
  return {
    wide: boxes('table, svg, p, li, h1, h2, svg text').filter(({ box }) => box.right > body.right + 1 || box.left < body.left - 1).map(({ text }) => text.slice(0, 60)),
    tall: boxes('figure:not(.long)').filter(({ box }) => box.height > height).map(({ text }) => text.slice(0, 60)),
    overlapping: [...document.querySelectorAll('svg')].flatMap((svg) => {
      const texts = boxes('text', svg);
      return texts.flatMap((a, i) => texts.slice(i + 1).filter((b) => overlap(a, b)).map((b) => a.text + ' and ' + b.text));
    }),
  };
});
document.body.textContent = JSON.stringify(found);
`;

/** What makes the page itself wider than a phone, and cells with more lines than words: broken letter by letter. */
const phoneInspection = `
const right = document.body.getBoundingClientRect().right;
const sticksOut = [...document.querySelectorAll('p, li, h1, h2, h3, figure, figcaption')]
  .filter((node) => node.getBoundingClientRect().right > right + 1).map((node) => node.textContent.slice(0, 60));
const broken = [...document.querySelectorAll('td, th')].filter((cell) => {
  const text = cell.textContent.trim();
  if (text === '') return false;
  const range = document.createRange();
  range.selectNodeContents(cell);
  const lines = new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size;
  // A very long word may be broken into pieces, but not into letters.
  return lines > text.split(/[ -]+/).reduce((most, word) => most + Math.ceil((word.length + 1) / 11), 0);
}).map((cell) => cell.textContent.slice(0, 60));
document.body.textContent = JSON.stringify({ sticksOut, broken });
`;

const exampleText = (name: string): string =>
  readFileSync(new URL(`../../data/examples/${name}.json`, import.meta.url), 'utf8');

function htmlOf(name: string, text: string): string {
  const record = readRecord(text);
  if (!record.ok) throw new Error(`${name} is no record`);
  return renderReport(analyseBench(record.bench), 'html', { file: `${name}.json`, generatedOn: null });
}

/** Mercury and neon, air wavelengths (NIST SRD 108). */
const mercuryNm = [435.83, 546.07, 579.07, 404.66, 491.61, 576.96, 623.44, 690.75];
const neonNm = [
  585.25, 640.22, 703.24, 540.06, 588.19, 594.48, 603.0, 607.43, 609.62, 614.31, 616.36, 621.73, 626.65,
  633.44, 638.3, 650.65, 667.83,
];

/** A 60° flint prism and a circle that reads to one minute. */
function benchOfLines(knownLines: number, tubeLines: number, apexKnown: boolean): string {
  const prism = cataloguePrism('F2', 60);
  const readings = (nm: number): string[] => [formatAngle(181 + minimumDeviationArcmin(prism, nm) / 60, 1)];
  return JSON.stringify({
    whichgas: 1,
    title: 'Bench of many lines',
    instrument: {
      method: 'central',
      leastCount: "1'",
      ...(apexKnown ? { apexAngle: { value: "60°00'", u: "2'" } } : {}),
    },
    central: ["181°00'"],
    known: {
      lamp: 'mercury',
      lines: mercuryNm.slice(0, knownLines).map((nm) => ({ wavelengthNm: nm, readings: readings(nm) })),
    },
    unknown: {
      label: 'tube C',
      lines: neonNm
        .slice(0, tubeLines)
        .map((nm) => ({ readings: readings(nm), color: 'red', brightness: 'strong' })),
    },
    about: { date: '2026-10-06', observers: ['A', 'B'], station: '2', prism: 'HL-P2' },
  });
}

const mmToPx = 96 / 25.4;

describe.skipIf(!available)('in the browser', () => {
  const examples = ['harbour-lane-bench-2', 'harbour-lane-bench-7', 'harbour-lane-bench-9'];
  const html = (name: string): string => htmlOf(name, exampleText(name));
  test.each(examples)('%s fits on both papers, and no labels overlap', (name) => {
    const sizes = Object.values(papers).map(({ widthMm, heightMm }) => ({
      width: (widthMm - marginsMm.across) * mmToPx,
      height: (heightMm - marginsMm.along) * mmToPx,
    }));
    const file = join(folder, `${name}-look.html`);
    const page = html(name)
      .replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '')
      .replaceAll('@media print', '@media all')
      .replace('</body>', `<script>${inspection.replace('PAPERS', JSON.stringify(sizes))}</script></body>`);
    writeFileSync(file, page);
    const dom = runBrowser(name, '--window-size=1200,1600', '--dump-dom', `file://${file}`);
    const body = elements(parse(dom)).find(({ tagName }) => tagName === 'body')!;
    const clean = { wide: [], tall: [], overlapping: [] };
    expect(JSON.parse(textOf(body))).toEqual([clean, clean]);
  });

  const onPhone: readonly [string, string][] = [
    ...examples.map((name): [string, string] => [name, html(name)]),
    ['a bench with long words', renderReport(analysis, 'html', { file: 'bench.json', generatedOn: null })],
  ];

  test.each(onPhone)(
    '%s is read on a phone: the page stays, wide tables move, no word is broken',
    (name, of) => {
      const file = join(folder, `${name}-phone.html`);
      const page = of
        .replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '')
        .replace('@media screen and (max-width: 480px)', '@media screen')
        .replace('<body>', '<body style="width: 366px">')
        .replace('</body>', `<script>${phoneInspection}</script></body>`);
      writeFileSync(file, page);
      const dom = runBrowser(`${name}-phone`, '--window-size=1200,1600', '--dump-dom', `file://${file}`);
      const body = elements(parse(dom)).find(({ tagName }) => tagName === 'body')!;
      expect(JSON.parse(textOf(body))).toEqual({ sticksOut: [], broken: [] });
    },
  );

  /** Known lines, lines of the tube, apex angle known or not; pages at the most. */
  const printed: readonly [string, string, number][] = [
    ['the demo bench', exampleText('harbour-lane-bench-2'), 3],
    ['an example on both sides', exampleText('harbour-lane-bench-7'), 3],
    ['three known lines and three of the tube', benchOfLines(3, 3, true), 3],
    ['eight known lines and 17 of the tube', benchOfLines(8, 17, false), 3],
    ['the same with indices of the prism', benchOfLines(8, 17, true), 4],
  ];
  const onPapers = printed.flatMap(([name, text, most]) =>
    (['A4', 'letter'] as const).map((paper) => [name, paper, text, most] as const),
  );

  test.each(onPapers)('%s prints on %s', (name, paper, text, most) => {
    const { widthMm, heightMm } = papers[paper];
    const file = join(folder, `${name.replaceAll(' ', '-')}-${paper}.html`);
    writeFileSync(file, htmlOf(name, text).replace('@page {', `@page { size: ${paper};`));
    const pdf = file.replace('.html', '.pdf');
    runBrowser('print', '--no-pdf-header-footer', `--print-to-pdf=${pdf}`, `file://${file}`);
    const written = readFileSync(pdf, 'latin1');
    const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(written)!;
    expect(Math.abs(Number(box[1]) - (widthMm / 25.4) * 72)).toBeLessThan(1);
    expect(Math.abs(Number(box[2]) - (heightMm / 25.4) * 72)).toBeLessThan(1);
    const pages = written.match(/\/Type \/Page\b(?!s)/g)?.length ?? 0;
    expect(pages).toBeGreaterThanOrEqual(2);
    expect(pages).toBeLessThanOrEqual(most);
  });
});
