/**
 * npm run score:calibration [-- --benches N --seed S --columns "flint 1',scale" --processes P]
 *
 * Simulated benches through the calibration: error against the best possible, coverage of the stated
 * uncertainties, planted faults noticed and corrected, sound lines accused.
 */
import { tubes } from '../../src/lines/table.ts';
import { scoreCleanBench, scoreFaultyBench } from './calibration-bench.ts';
import { calibrationColumns, faultNames, faults } from './calibration-plan.ts';
import { accusationTable, type BenchRow, faultTable, wavelengthTable } from './calibration-table.ts';
import { isWorker, scoreColumns, scoreParts } from './in-processes.ts';
import { benchSeed, chosen, readOptions } from './options.ts';
import { Random } from './random.ts';
import { simulateBench } from './simulate-bench.ts';

/** One bench without faults and one with each fault that has a meaning for the column's instrument. */
function scoreBench(column: string, bench: number, seed: number): BenchRow {
  const { plan } = calibrationColumns.find(({ name }) => name === column)!;
  const random = new Random(benchSeed(seed, column, bench));
  const tube = tubes[bench % tubes.length]!;
  const simulated = simulateBench(random, { ...plan, tube });
  // One tube on the shelf: only the wavelengths are looked at here.
  const shelved = simulated.bench.tubes.map((unknown) => ({ ...unknown, shelf: [tube.substance] }));
  const clean = scoreCleanBench({ ...simulated, bench: { ...simulated.bench, tubes: shelved } });
  const planted = faultNames.filter((fault) => plan.method !== 'scale' || 'naming' in faults[fault]);
  const faulty = planted.map((fault) => {
    const bad = simulateBench(random, { ...plan, fault: faults[fault] });
    return { fault, knownLines: bad.truth.known.length, result: scoreFaultyBench(bad) };
  });
  return { clean, faulty };
}

async function main(): Promise<void> {
  const options = readOptions(1000);
  const columns = chosen(calibrationColumns, options.columns);
  const results = await scoreColumns<BenchRow>(columns, options);
  process.stdout.write(
    [
      `Calibration score: ${options.benches} simulated benches a column, and as many with each fault; seed ${options.seed}.`,
      'x bound: rms error over that of the Cramér-Rao bound of a curve with three constants; with fewer than five known',
      'lines over the Van Trees bound with the spread of prisms known. Below 1 where knowing prisms helps more than the',
      'bound allows for. Standard errors by bench.',
      '',
      wavelengthTable(results),
      '',
      accusationTable(results),
      '',
      'Faults (wrong names: six or more known lines, and names that differ by more than 4u):',
      '',
      faultTable(results),
      '',
    ].join('\n'),
  );
}

if (isWorker) scoreParts(scoreBench);
else await main();
