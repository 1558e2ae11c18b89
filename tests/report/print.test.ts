/** The report as a browser lays it out and prints it, on both paper sizes. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'parse5';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { renderReport } from '../../src/present/report/write-report.ts';
import { readRecord } from '../../src/record/read-record.ts';
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
const marginsMm = { across: 34, along: 38 };

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

const mmToPx = 96 / 25.4;

describe.skipIf(!available)('in the browser', () => {
  const examples = ['harbour-lane-bench-2', 'harbour-lane-bench-7', 'harbour-lane-bench-9'];
  const html = (name: string): string => {
    const record = readRecord(
      readFileSync(new URL(`../../data/examples/${name}.json`, import.meta.url), 'utf8'),
    );
    if (!record.ok) throw new Error(`${name} is no record`);
    return renderReport(analyseBench(record.bench), 'html', { file: `${name}.json`, generatedOn: null });
  };
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

  const printed = examples
    .slice(0, 2)
    .flatMap((name) => (['A4', 'letter'] as const).map((paper) => [name, paper] as const));

  test.each(printed)('%s prints on %s', (name, paper) => {
    const { widthMm, heightMm } = papers[paper];
    const file = join(folder, `${name}-${paper}.html`);
    writeFileSync(file, html(name).replace('@page {', `@page { size: ${paper};`));
    const pdf = file.replace('.html', '.pdf');
    runBrowser(name, '--no-pdf-header-footer', `--print-to-pdf=${pdf}`, `file://${file}`);
    const written = readFileSync(pdf, 'latin1');
    const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(written)!;
    expect(Math.abs(Number(box[1]) - (widthMm / 25.4) * 72)).toBeLessThan(1);
    expect(Math.abs(Number(box[2]) - (heightMm / 25.4) * 72)).toBeLessThan(1);
    const pages = written.match(/\/Type \/Page\b(?!s)/g)?.length ?? 0;
    expect(pages).toBeGreaterThanOrEqual(4);
    expect(pages).toBeLessThanOrEqual(12);
  });
});
