/** The report's style sheet: black on white, for paper first. */
export const reportStyle = `
:root { color-scheme: light; }
html { background: #fff; color: #111; font: 10.5pt/1.45 Georgia, 'Liberation Serif', 'Times New Roman', serif; font-size-adjust: .48; }
body { max-width: 48rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.6em; line-height: 1.2; margin: 0 0 .4em; overflow-wrap: anywhere; }
h2 { font-size: 1.2em; margin: 1.6em 0 .4em; padding-bottom: .15em; border-bottom: 1px solid #111; }
h3 { font-size: 1em; margin: 1em 0 .3em; }
p { margin: .45em 0; overflow-wrap: anywhere; }
.abstract { font-weight: bold; }
ul { margin: .4em 0; padding-left: 1.2em; }
li { margin: .2em 0; overflow-wrap: anywhere; }
.formula { margin: .5em 0; padding: .2em 1em; border-left: 3px solid #888; font-style: italic; }
.formula p { margin: .15em 0; }
table { border-collapse: collapse; font-size: .86em; line-height: 1.3; font-variant-numeric: lining-nums tabular-nums; }
thead { border-top: 1.5px solid #111; border-bottom: 1px solid #111; }
tbody { border-bottom: 1.5px solid #111; }
tbody tr + tr { border-top: 1px solid #ddd; }
th, td { padding: .18em .9em .18em 0; text-align: left; vertical-align: top; }
td.short { white-space: nowrap; }
td.long { overflow-wrap: anywhere; min-width: 11em; }
th { vertical-align: bottom; }
th:last-child, td:last-child { padding-right: 0; }
.n { text-align: right; white-space: nowrap; }
th.wraps { white-space: normal; }
figure { margin: .9em 0 1em; }
figure.table { overflow-x: auto; }
figure svg { display: block; width: 100%; height: auto; }
figcaption { font-size: .86em; margin: .4em 0; line-height: 1.35; }
.pair { display: flex; flex-wrap: wrap; column-gap: 4%; align-items: flex-start; }
.pair > div { flex: 1 1 20rem; min-width: 0; max-width: 100%; }
.pair figure { margin-top: .4em; }
.facts figcaption, .facts table, .facts tbody { display: inline; border: 0; }
.facts thead { display: none; }
.facts tr, .facts td { display: inline; border: 0; padding: 0; white-space: normal; }
.facts td:first-child { font-style: italic; }
.facts td:first-child::after { content: ': '; }
.facts tr:not(:last-child)::after { content: '; '; }
.small p, .small li { font-size: .93em; }
footer { margin-top: 2em; border-top: 1px solid #888; font-size: .82em; color: #333; }
@media screen and (max-width: 480px) {
  body { margin: 1rem auto; padding: 0 .8rem; }
  figure.wide > div { overflow-x: auto; }
  figure.wide svg { min-width: 42rem; }
}
@page { margin: 12mm 14mm 14mm; @bottom-center { content: counter(page) ' / ' counter(pages); font: 8.5pt Georgia, 'Liberation Serif', serif; } }
@media print {
  html { font-size: 8pt; line-height: 1.24; }
  th, td { padding-top: .06em; padding-bottom: .06em; }
  body { max-width: none; margin: 0; padding: 0; }
  h1 { font-size: 1.5em; }
  h2 { margin: .7em 0 .25em; font-size: 1.15em; }
  h3 { margin: .6em 0 .15em; }
  p, ul, figcaption { margin: .25em 0; }
  li { margin: .1em 0; }
  .formula { margin: .3em 0; padding: .1em 1em; }
  .formula p { margin: .1em 0; }
  footer { margin-top: .8em; }
  ul.many { columns: 3; column-gap: 2em; }
  figure { margin: .3em 0 .4em; }
  .pair figure { margin-top: .3em; }
  .pair { break-inside: avoid; }
  .pair > div { flex-basis: 40%; }
  h2, h3, h2 + p:not(:last-child), h3 + p:not(:last-child), .table > figcaption { break-after: avoid; }
  figure, .formula { break-inside: avoid; }
  figure.table { overflow: visible; }
  figure.long { break-inside: auto; }
  thead { display: table-header-group; }
  tr, li { break-inside: avoid; }
  p { break-inside: avoid; }
}
`;
