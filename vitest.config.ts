import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

const unit = ['music', 'contract', 'recording', 'api', 'seed', 'command', 'measure', 'web'].map(
  (folder) => `${folder}/**/*.test.{ts,tsx}`,
);
const database = ['tests/support/database/global-setup.ts'];

export default defineConfig({
  test: {
    // Each file has its own database, ports and browser; while one waits, another one works.
    maxWorkers: Math.max(2, availableParallelism()),
    projects: [
      {
        test: {
          name: 'unit',
          exclude: ['tests/rules/violations/**', 'node_modules/**'],
          include: [...unit, 'tests/{convergence,corpus,door,rules,same}/**/*.test.ts'],
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'api',
          include: ['tests/{api,contracts,migrations}/**/*.test.ts'],
          globalSetup: database,
          testTimeout: 30_000,
          hookTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'launch',
          include: ['tests/launch/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: database,
          testTimeout: 180_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
