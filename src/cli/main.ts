/** Entry of the program. */
import './late-optimizer.ts';
import { outputFailed, reportFailure, run } from './run.ts';

process.stdout.on('error', outputFailed);
// Nowhere is left to say that standard error cannot be written.
process.stderr.on('error', () => {});
process.on('uncaughtException', (error) => process.exit(reportFailure(error)));

const exitCode = await run(process.argv.slice(2));
process.exitCode = exitCode;
// Once all is written there is nothing to wait for: tidying up the memory would take as long as printing. What could
// not be written ends in `outputFailed`.
process.stdout.write('', (unwritten) => {
  if (!unwritten) process.stderr.write('', () => process.exit(exitCode));
});
