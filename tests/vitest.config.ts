import { defineConfig } from 'vitest/config';

// Time zone and workers are fixed so that results do not depend on the machine.
process.env.TZ = 'UTC';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts', 'tests/**/*.check.ts'],
    testTimeout: 240_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
    pool: 'forks',
  },
});
