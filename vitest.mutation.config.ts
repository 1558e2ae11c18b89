import { defineConfig } from 'vitest/config';

/** The tests of the core alone, for `npm run test:mutation`; MUTATION_TESTS names some of them, comma-separated. */
const core = ['angle', 'numeric', 'observe', 'calibrate', 'identify', 'analysis', 'lines', 'reference'];
/** The part of `tests/cli` that asks `src/analysis` itself and runs no program. */
const asked = ['convert-predict', 'station-check', 'verify-outcome'].map(
  (name) => `tests/cli/${name}.test.ts`,
);
const named = process.env.MUTATION_TESTS?.split(',') ?? [
  ...core.map((folder) => `tests/${folder}/**/*.test.ts`),
  ...asked,
];

export default defineConfig({
  test: {
    include: named,
    setupFiles: ['tests/seed.ts'],
    env: { FORCE_COLOR: '0' },
    // Only against hanging.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
