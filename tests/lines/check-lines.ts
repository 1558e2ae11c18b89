/** `npm run check:lines`: prints the rows of every spectrum and every fault of the line table; exit 1 on a fault. */
import { brightnessFile } from '../../src/lines/brightness-file.ts';
import { lineFile } from '../../src/lines/line-file.ts';
import { tubes } from '../../src/lines/table.ts';
import { tubeFile } from '../../src/lines/tube-file.ts';
import { brightnessFaults, lineFaults, rowCounts, tubeFaults } from './line-faults.ts';

const faults = [
  ...lineFaults(lineFile),
  ...tubeFaults(tubeFile, lineFile),
  ...brightnessFaults(brightnessFile, tubeFile),
];
const counts = Object.entries(rowCounts(lineFile));
for (const [spectrum, rows] of counts) console.log(`${String(rows).padStart(4)}  ${spectrum}`);
const total = counts.reduce((sum, [, rows]) => sum + rows, 0);
console.log(`${total} rows in ${counts.length} spectra, ${tubes.length} tubes, ${faults.length} faults`);
for (const fault of faults) console.error(fault);
if (faults.length > 0) process.exitCode = 1;
