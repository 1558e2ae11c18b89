/** Writes the bench screen's pictures into README.md: `npx tsx tests/tui/refresh-screens.ts`. */
import { readFileSync, writeFileSync } from 'node:fs';

// Plain text, whatever the terminal of the one who runs this.
process.env.FORCE_COLOR = '0';
const { withScreens } = await import('./screens.tsx');
const readme = new URL('../../README.md', import.meta.url);
writeFileSync(readme, withScreens(readFileSync(readme, 'utf8')));
