import { defineConfig } from 'vitest/config';

process.env.TZ = 'UTC';

/** The tests of one mutated folder, named by `mutate.ts`. */
export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: (process.env.MUTATED_TESTS ?? '').split(','),
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
