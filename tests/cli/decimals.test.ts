/** A number with a decimal mark on a circle with minutes is never taken silently on the command line. */
import { expect, test } from 'vitest';
import { formText } from '../../src/tui/form.ts';
import { FILLED } from '../tui/fixture.ts';
import { type Ended, jsonLines, whichgas, withFiles } from './run-program.ts';

const convert = (...words: readonly string[]): Promise<Ended> =>
  withFiles({ 'bench.json': formText(FILLED) }, (cwd) =>
    whichgas(['convert', 'bench.json', ...words], { cwd }),
  );

test('what both habits can have written is refused, with both meanings', async () => {
  const { code, out, err } = await convert('229.17');
  expect(code).toBe(2);
  expect(out).toBe('');
  expect(err).toContain(
    `229.17 can be 229°10' (decimal degrees) or 229°17' (degrees.minutes) on this circle; write 229°10' or 229°17'`,
  );
});

test('what only one can have written is taken, and its meaning said', async () => {
  const { code, out, err } = await convert('229.683');
  expect(code).toBe(0);
  expect(err).toContain(`229.683 is taken as 229°41' (decimal degrees)`);
  expect(out).toContain('nm');
});

test('sixtieths are minutes', async () => {
  const [sixtieths, minutes] = jsonLines(await convert('229 41/60', "229 41'", '--json'));
  expect(sixtieths).toEqual({ ...(minutes as object), reading: '229 41/60' });
});
