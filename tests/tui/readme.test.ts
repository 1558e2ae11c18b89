import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { withScreens } from './screens.tsx';

it('README.md shows the bench screen as it is (refresh: npx tsx tests/tui/refresh-screens.ts)', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  expect(readme).toBe(withScreens(readme));
});
