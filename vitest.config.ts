import { defineConfig } from 'vitest/config';
import { LongFirst } from './tests/long-first.ts';

// "source" makes workspaces resolve to their TypeScript, so tests need no build.
const conditions = ['source', 'node', 'module'];

export default defineConfig({
  resolve: { conditions },
  ssr: { resolve: { conditions } },
  test: {
    include: [
      'packages/*/src/**/*.test.ts',
      'packages/*/test/**/*.test.ts',
      'apps/*/src/**/*.test.{ts,tsx}',
      'apps/*/test/**/*.test.ts',
      'tools/**/*.test.ts',
      'tests/**/*.test.ts',
      'bench/**/*.test.ts',
    ],
    exclude: ['**/node_modules/**', '**/dist/**'],
    // Many tests wait for a browser, a process or samples in real time; two at once keep even a small machine busy.
    maxWorkers: 2,
    sequence: { sequencer: LongFirst },
    // Bounds for a machine that hangs, not for a slow one.
    testTimeout: 120_000,
    hookTimeout: 180_000,
  },
});
