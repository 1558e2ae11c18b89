/** Entry of the program. What must be settled before anything is loaded, is settled here. */

// Ink and its colour library look at FORCE_COLOR only, once, when they are loaded.
if (process.env.NO_COLOR && process.env.FORCE_COLOR === undefined) process.env.FORCE_COLOR = '0';

const { outputFailed, reportFailure } = await import('./fault.ts');
process.stdout.on('error', outputFailed);
// Nowhere is left to say that standard error cannot be written.
process.stderr.on('error', () => {});
process.on('uncaughtException', (error) => process.exit(reportFailure(error)));

const { run } = await import('./run.ts');
process.exitCode = await run(process.argv.slice(2));

export {};
