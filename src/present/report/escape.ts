/** Text that becomes no markup. A bench record is written by anyone; nothing in it may act in a reader's program. */
import { safeText } from '../safe-text.ts';

const htmlEntities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text for HTML, between tags or inside a quoted attribute. */
export function escapeHtml(text: string): string {
  return safeText(text).replace(/[&<>"']/g, (character) => htmlEntities[character]!);
}

/** Text for GitHub-flavoured Markdown inside a line or a table cell: no emphasis, links, tags, autolinks. */
export function escapeMarkdown(text: string): string {
  return safeText(text)
    .trim()
    .replace(/[\\`*_[\]<>|~&$]/g, '\\$&')
    .replace(/:\/\//g, '\\://')
    .replace(/www\./gi, (www) => `${www.slice(0, 3)}\\.`)
    .replace(/@/g, '\\@');
}

/** The same at the start of a line, where a mark would also begin a heading, a list or a rule. */
export function escapeMarkdownLine(text: string): string {
  return escapeMarkdown(text)
    .replace(/^[#+\-=]+(?=\s|$)/, '\\$&')
    .replace(/^(\d+)([.)])(?=\s|$)/, '$1\\$2');
}
