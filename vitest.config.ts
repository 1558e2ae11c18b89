import { defineConfig } from 'vitest/config';

/** Tests that replace modules, streams or the working folder, or start programs: each file in a process of its own. */
const PROGRAM = ['tests/cli', 'tests/fuzz', 'tests/package', 'tests/report', 'tests/tui', 'tests/windows'];

export default defineConfig({
  test: {
    projects: [
      {
        extends: true,
        test: { name: 'program', include: PROGRAM.map((folder) => `${folder}/**/*.test.{ts,tsx}`) },
      },
      {
        extends: true,
        test: {
          name: 'core',
          include: ['tests/**/*.test.ts'],
          exclude: [...PROGRAM, 'tests/soak'].map((folder) => `${folder}/**`),
          benchmark: { include: ['tests/bench/**/*.bench.ts'] },
          // Nothing but pure functions: loading them once for all files halves the time.
          isolate: false,
        },
      },
    ],
    benchmark: { include: [] },
    setupFiles: ['tests/seed.ts'],
    env: { FORCE_COLOR: '0' },
    maxWorkers: '100%',
    // Only against hanging: the machine may be small and busy.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
