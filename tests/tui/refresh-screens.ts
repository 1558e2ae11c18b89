/** Writes the bench screen's pictures into README.md and DEVELOPERS.md: `npx tsx tests/tui/refresh-screens.ts`. */
import { readFileSync, writeFileSync } from 'node:fs';

// Plain text, whatever the terminal of the one who runs this.
process.env.FORCE_COLOR = '0';
const { withScreens } = await import('./screens.tsx');
for (const name of ['README.md', 'DEVELOPERS.md']) {
  const guide = new URL(`../../${name}`, import.meta.url);
  writeFileSync(guide, withScreens(readFileSync(guide, 'utf8')));
}
