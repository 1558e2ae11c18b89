/** In the built program this stands in for run.ts, which is built apart: the commands, compiled beforehand. */
import { fileURLToPath } from 'node:url';
import { loadCompiled } from './compiled.ts';

export const { outputFailed, reportFailure, run } = loadCompiled<typeof import('./run.ts')>(
  fileURLToPath(new URL('./commands.cjs', import.meta.url)),
).exports;
