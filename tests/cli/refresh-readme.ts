/** Puts the real outputs into README.md: `npm run build && npx tsx tests/cli/refresh-readme.ts`. */
import { readFileSync, writeFileSync } from 'node:fs';
import { withRealOutputs } from './readme-commands.ts';

const file = new URL('../../README.md', import.meta.url);
writeFileSync(file, await withRealOutputs(readFileSync(file, 'utf8')));
