import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

const unit = ['music', 'contract', 'recording', 'api', 'seed', 'command', 'measure', 'web'].map(
  (folder) => `${folder}/**/*.test.{ts,tsx}`,
);
const guessing = 'tests/api/guessing.test.ts';
const database = ['tests/support/database/global-setup.ts'];

/** Each file has its own database, ports and browser, so files run beside each other; a worker keeps what it has loaded for the next file. */
const beside = { isolate: false, maxWorkers: Math.max(2, availableParallelism()) } as const;

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          ...beside,
          name: 'unit',
          exclude: ['tests/rules/violations/**', 'node_modules/**'],
          include: [...unit, 'tests/{convergence,corpus,door,rules,same}/**/*.test.ts'],
          testTimeout: 60_000,
        },
      },
      {
        test: {
          ...beside,
          name: 'api',
          include: ['tests/{api,contracts,migrations}/**/*.test.ts'],
          exclude: [guessing],
          globalSetup: database,
          testTimeout: 30_000,
          hookTimeout: 60_000,
        },
      },
      {
        test: {
          ...beside,
          // The sign-in library counts tries in a module of its own: here nobody else may have tried before.
          isolate: true,
          name: 'api-alone',
          include: [guessing],
          globalSetup: database,
          testTimeout: 30_000,
        },
      },
      {
        test: {
          ...beside,
          name: 'launch',
          include: ['tests/launch/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          ...beside,
          name: 'browser',
          // A browser beside everything else on two cores may once come too late; what is broken fails twice.
          retry: 1,
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: database,
          testTimeout: 180_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
