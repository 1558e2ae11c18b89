import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { withScreens } from './screens.tsx';

it.each(['README.md', 'DEVELOPERS.md'])(
  '%s shows the bench screen as it is (refresh: npx tsx tests/tui/refresh-screens.ts)',
  (name) => {
    const guide = readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8');
    expect(guide).toBe(withScreens(guide));
  },
);

it('a picture that is not there, or a guide without a place for one, is a fault', () => {
  expect(() => withScreens('nothing')).toThrow('no place');
  expect(() =>
    withScreens('<!-- picture of the bench screen: cellar -->\n<!-- end of the picture -->'),
  ).toThrow('cellar');
});
