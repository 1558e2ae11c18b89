import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/soak/**', 'node_modules/**'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    env: { FORCE_COLOR: '0' },
    // Only against hanging: the machine may be small and busy.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
