/** Entry of the program. */
import './late-optimizer.ts';
import { outputFailed, reportFailure, run } from './run.ts';

process.stdout.on('error', outputFailed);
// Nowhere is left to say that standard error cannot be written.
process.stderr.on('error', () => {});
process.on('uncaughtException', (error) => process.exit(reportFailure(error)));

process.exitCode = await run(process.argv.slice(2));
