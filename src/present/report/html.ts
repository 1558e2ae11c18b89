/** The report as one self-contained HTML file: no script, nothing fetched, prints on A4 and Letter. */
import { type Block, type Figure, type ReportDocument, type Table, underCaption } from './document.ts';
import { escapeHtml } from './escape.ts';
import { htmlPage } from './html-page.ts';
import { reportStyle } from './style.ts';

/** A longer table may break across pages (its head is repeated); a shorter one is kept whole. */
const LONGEST_UNBROKEN_ROWS = 30;

/** A list of so many items stands in two columns on paper. */
const MANY_ITEMS = 5;

interface Counters {
  tables: number;
  figures: number;
}

/** One self-contained page. */
export function renderHtml(report: ReportDocument): string {
  const counters = { tables: 0, figures: 0 };
  const sections = report.sections.map((section, at) =>
    [
      section.isSmall ? '<section class="small">' : '<section>',
      `<h2>${at + 1}. ${escapeHtml(section.title)}</h2>`,
      ...section.blocks.map((block) => renderBlock(block, counters)),
      '</section>',
    ].join('\n'),
  );
  return htmlPage(report.title, reportStyle, [
    '<header>',
    `<h1>${escapeHtml(report.title)}</h1>`,
    ...report.abstract.map((sentence) => `<p class="abstract">${escapeHtml(sentence)}</p>`),
    '</header>',
    '<main>',
    ...sections,
    '</main>',
    `<footer><p>${escapeHtml(report.imprint)}</p></footer>`,
  ]);
}

function renderBlock(block: Block, counters: Counters): string {
  switch (block.kind) {
    case 'paragraph':
      return `<p>${escapeHtml(block.text)}</p>`;
    case 'heading':
      return `<h3>${escapeHtml(block.text)}</h3>`;
    case 'list':
      return `<ul${block.items.length >= MANY_ITEMS ? ' class="many"' : ''}>\n${block.items.map((item) => `<li>${escapeHtml(item)}</li>`).join('\n')}\n</ul>`;
    case 'formula':
      return `<div class="formula">${block.lines.map((line) => `<p>${escapeHtml(line)}</p>`).join('')}</div>`;
    case 'table':
      counters.tables += 1;
      return renderTable(underCaption(block), counters.tables);
    case 'figure':
      counters.figures += 1;
      return renderFigure(block, counters.figures);
    case 'pair': {
      const column = (blocks: readonly Block[]): string =>
        `<div>\n${blocks.map((each) => renderBlock(each, counters)).join('\n')}\n</div>`;
      return `<div class="pair">\n${column(block.left)}\n${column(block.right)}\n</div>`;
    }
  }
}

function renderTable(table: Table, tableNumber: number): string {
  const tag = (name: string, text: string, at: number, attributes = ''): string => {
    const kind = table.columns[at]?.numeric ? (text.length > 12 ? 'n wraps' : 'n') : wrapping(text);
    return `<${name}${attributes}${kind === '' ? '' : ` class="${kind}"`}>${escapeHtml(text)}</${name}>`;
  };
  const head = table.columns.map((column, at) => tag('th', column.title, at, ' scope="col"')).join('');
  const rows = table.rows.map((row) => `<tr>${row.map((cell, at) => tag('td', cell, at)).join('')}</tr>`);
  return [
    `<figure class="table${table.rows.length > LONGEST_UNBROKEN_ROWS ? ' long' : ''}${table.isFacts ? ' facts' : ''}">`,
    `<figcaption><b>Table ${tableNumber}.</b> ${escapeHtml(table.caption)}</figcaption>`,
    '<table>',
    `<thead><tr>${head}</tr></thead>`,
    `<tbody>\n${rows.join('\n')}\n</tbody>`,
    '</table>',
    '</figure>',
  ].join('\n');
}

/** A cell of a word or two stays on its line; only one with a very long word is broken inside words. */
function wrapping(text: string): '' | 'short' | 'long' {
  if (/\S{18}/u.test(text)) return 'long';
  return text.length <= 18 ? 'short' : '';
}

function renderFigure(figure: Figure, figureNumber: number): string {
  return [
    figure.half ? '<figure>' : '<figure class="wide">',
    `<div role="img" aria-label="${escapeHtml(figure.description)}">${figure.draw()}</div>`,
    `<figcaption><b>Figure ${figureNumber}.</b> ${escapeHtml(figure.caption)}</figcaption>`,
    '</figure>',
  ].join('\n');
}
