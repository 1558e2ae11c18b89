/** Entry of the program. What must be settled before anything is loaded, is settled here. */

// Ink and its colour library look at FORCE_COLOR only, once, when they are loaded.
if (process.env.NO_COLOR && process.env.FORCE_COLOR === undefined) process.env.FORCE_COLOR = '0';

// A reader that has seen enough (`whichgas lines | head`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});

const { run } = await import('./run.ts');
process.exitCode = await run(process.argv.slice(2));

export {};
