import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/soak/**/*.test.ts'],
    setupFiles: ['tests/seed.ts'],
    env: { FORCE_COLOR: '0' },
    testTimeout: 3_600_000,
    hookTimeout: 120_000,
  },
});
