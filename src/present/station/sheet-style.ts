/** The style of a station's sheet: for paper, A4 and Letter, written on with a pencil. */
export const sheetStyle = `
:root { color-scheme: light; }
html { background: #fff; color: #111; font: 10pt/1.3 'Liberation Sans', Arial, Helvetica, sans-serif; }
body { max-width: 48rem; margin: 1.5rem auto; padding: 0 1rem; }
article + article { break-before: page; margin-top: 3rem; }
h1 { font-size: 1.5em; margin: 0 0 .4em; overflow-wrap: anywhere; }
h2 { font-size: 1.05em; margin: 1em 0 .3em; overflow-wrap: anywhere; }
p { margin: .35em 0; overflow-wrap: anywhere; }
.fields { display: flex; flex-wrap: wrap; gap: .5em 1.6em; }
.fields span { display: flex; align-items: end; min-width: 0; }
.fields b { margin-right: .4em; }
.blank { display: inline-block; min-width: 7em; flex: 1; border-bottom: 1px solid #111; height: 1.5em; }
.wide, .half { flex: 1 1 100%; }
.half { flex-basis: 45%; }
.cautions { border: 1.5px solid #111; padding: .2em .8em; margin: .7em 0; }
.cautions h2 { margin: .2em 0; }
.cautions ul { margin: .2em 0; padding-left: 1.1em; font-size: .9em; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; margin: .4em 0; }
th, td { border: 1px solid #555; padding: 0 .25em; text-align: left; font-size: .8em; line-height: 1.1; overflow-wrap: anywhere; }
th { font-weight: bold; font-size: .74em; height: 1.9em; }
td { height: 2.4em; }
.work { background: #e8e8e8; }
.lines { table-layout: auto; }
.lines th { white-space: nowrap; }
.lines th, .lines td { font-size: .85em; height: 1.7em; }
.typed { font-size: .85em; margin-top: .8em; }
code { font: .95em 'Liberation Mono', monospace; }
.paper { display: block; width: 100%; margin: .6em 0; }
@page { margin: 13mm 15mm; }
@media print {
  html { font-size: 9.5pt; }
  body { max-width: none; margin: 0; padding: 0; }
  article + article { margin-top: 0; }
  .tube, .hand { break-before: page; }
  .hand { break-inside: avoid; }
  thead { display: table-header-group; }
  tr, .cautions, .answer, .typed { break-inside: avoid; }
  h2 { break-after: avoid; }
  .work { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`;
