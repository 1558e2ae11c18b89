/** The report as GitHub-flavoured Markdown: the same tables and sentences; a figure is its description. */
import { type Block, blocksInOrder, type ReportDocument, type Table, underCaption } from './document.ts';
import { escapeMarkdown, escapeMarkdownLine } from './escape.ts';

export function renderMarkdown(report: ReportDocument): string {
  const counters = { tables: 0, figures: 0 };
  const blocks = [
    `# ${escapeMarkdown(report.title)}`,
    ...report.abstract.map((sentence) => `**${escapeMarkdown(sentence)}**`),
    ...report.sections.flatMap((section, at) => [
      `## ${at + 1}. ${escapeMarkdown(section.title)}`,
      ...blocksInOrder(section.blocks).map((block) => renderBlock(block, counters)),
    ]),
    '---',
    escapeMarkdownLine(report.imprint),
  ];
  return `${blocks.join('\n\n')}\n`;
}

function renderBlock(block: Block, counters: { tables: number; figures: number }): string {
  switch (block.kind) {
    case 'paragraph':
      return escapeMarkdownLine(block.text);
    case 'heading':
      return `### ${escapeMarkdown(block.text)}`;
    case 'list':
      return block.items.map((item) => `- ${escapeMarkdownLine(item)}`).join('\n');
    case 'formula':
      return block.lines.map((line) => `> ${escapeMarkdownLine(line)}`).join('  \n');
    case 'pair':
      return '';
    case 'table':
      counters.tables += 1;
      return renderTable(underCaption(block), counters.tables);
    case 'figure':
      counters.figures += 1;
      return `**Figure ${counters.figures}** (drawn in the HTML form of this report). ${escapeMarkdown(block.caption)} ${escapeMarkdown(block.description)}`;
  }
}

function renderTable(table: Table, tableNumber: number): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [
    `**Table ${tableNumber}.** ${escapeMarkdown(table.caption)}`,
    '',
    line(table.columns.map((column) => escapeMarkdown(column.title))),
    line(table.columns.map((column) => (column.numeric ? '---:' : '---'))),
    ...table.rows.map((row) => line(row.map(escapeMarkdown))),
  ].join('\n');
}
