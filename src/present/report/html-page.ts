/** A self-contained page of HTML. */
import { escapeHtml } from './escape.ts';

/** `style`: rules of CSS; `body`: lines of HTML, escaped already; the title is text. */
export function htmlPage(title: string, style: string, body: readonly string[]): string {
  return `${[
    '<!DOCTYPE html>',
    '<html lang="en-GB">',
    '<head>',
    '<meta charset="utf-8">',
    // Nothing may be fetched or run, even if some text should ever slip through as markup.
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeHtml(title)}</title>`,
    `<style>${style}</style>`,
    '</head>',
    '<body>',
    ...body,
    '</body>',
    '</html>',
  ].join('\n')}\n`;
}
