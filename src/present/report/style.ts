/** The report's style sheet: black on white, for paper first. */
export const reportStyle = `
:root { color-scheme: light; }
html { background: #fff; color: #111; font: 10.5pt/1.45 Georgia, 'Liberation Serif', 'Times New Roman', serif; }
body { max-width: 46rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.7em; line-height: 1.2; margin: 0 0 .5em; overflow-wrap: anywhere; }
h2 { font-size: 1.2em; margin: 2em 0 .5em; padding-bottom: .15em; border-bottom: 1px solid #111; }
h3 { font-size: 1em; margin: 1.4em 0 .4em; }
p { margin: .5em 0; overflow-wrap: anywhere; }
.abstract { font-weight: bold; }
ul { margin: .5em 0; padding-left: 1.2em; }
li { margin: .25em 0; overflow-wrap: anywhere; }
.formula { margin: .7em 0; padding: .3em 1em; border-left: 3px solid #888; font-style: italic; }
.formula p { margin: .2em 0; }
table { border-collapse: collapse; font-size: .88em; line-height: 1.3; font-variant-numeric: lining-nums tabular-nums; }
thead { border-top: 1.5px solid #111; border-bottom: 1px solid #111; }
tbody { border-bottom: 1.5px solid #111; }
tbody tr + tr { border-top: 1px solid #ddd; }
th, td { padding: .22em .9em .22em 0; text-align: left; vertical-align: top; }
td.short { white-space: nowrap; }
.long { overflow-wrap: anywhere; }
th { vertical-align: bottom; }
th:last-child, td:last-child { padding-right: 0; }
.n { text-align: right; white-space: nowrap; }
figure { margin: 1.2em 0 1.5em; }
figure.table { overflow-x: auto; }
figure svg { display: block; width: 100%; height: auto; }
figcaption { font-size: .88em; margin: .5em 0; line-height: 1.35; }
footer { margin-top: 2.5em; border-top: 1px solid #888; font-size: .82em; color: #333; }
@page { margin: 18mm 17mm 20mm; @bottom-center { content: counter(page) ' / ' counter(pages); font: 8.5pt Georgia, 'Liberation Serif', serif; } }
@media print {
  html { font-size: 9.8pt; }
  body { max-width: none; margin: 0; padding: 0; }
  h2, h3, h2 + p, h3 + p, .table > figcaption { break-after: avoid; }
  figure, .formula { break-inside: avoid; }
  figure.table { overflow: visible; }
  figure.long { break-inside: auto; }
  thead { display: table-header-group; }
  tr, li { break-inside: avoid; }
  p { break-inside: avoid; }
}
`;
