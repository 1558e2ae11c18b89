import { describe, expect, test } from 'vitest';
import { loadedWith, sources } from './imports.ts';

const computed = sources.filter(({ path }) => path.endsWith('.computed.ts'));

describe('what the build computes beforehand', () => {
  test('is there', () => {
    expect(computed.map(({ path }) => path)).toEqual(
      expect.arrayContaining(['calibrate/curve/catalogue-trend.computed.ts', 'lines/tubes.computed.ts']),
    );
  });

  test.each(computed.map(({ path }) => path))(
    '%s exports plain data, which a JSON text carries',
    async (path) => {
      const values: Record<string, unknown> = { ...(await import(`../../src/${path}`)) };
      expect(Object.keys(values).length).toBeGreaterThan(0);
      for (const value of Object.values(values))
        expect(JSON.parse(JSON.stringify(value))).toStrictEqual(value);
    },
  );

  test.each(computed.map(({ path }) => path))('%s rests on data and formulae alone', (path) => {
    const folders = new Set(loadedWith(path).map(({ folder }) => folder));
    expect(
      [...folders].filter((folder) => !['calibrate', 'lines', 'numeric', 'record'].includes(folder)),
    ).toEqual([]);
  });
});
