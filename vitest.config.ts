import { defineConfig } from 'vitest/config';
import { LongFirst } from './tests/long-first.ts';

// "source" makes workspaces resolve to their TypeScript, so tests need no build.
const conditions = ['source', 'node', 'module'];

const never = ['**/node_modules/**', '**/dist/**'];
const pure = [
  'packages/{core,contract,formats,report,capture}/**/*.test.ts',
  'apps/web/src/**/*.test.{ts,tsx}',
  'tools/**/*.test.ts',
];
const all = [
  'packages/*/{src,test}/**/*.test.ts',
  'apps/*/src/**/*.test.{ts,tsx}',
  'apps/*/test/**/*.test.ts',
  'tests/**/*.test.ts',
  'bench/**/*.test.ts',
];
const project = (name: string, include: string[], more: { isolate?: boolean; exclude?: string[] }) => ({
  extends: true as const,
  test: { name, include, exclude: never, ...more },
});

export default defineConfig({
  resolve: { conditions },
  ssr: { resolve: { conditions } },
  test: {
    globalSetup: ['./tests/run-folder.ts'],
    projects: [
      // Code without a state of its own shares what it imports from file to file; that halves the time it takes.
      project('pure', pure, { isolate: false }),
      project('whole', all, { exclude: [...never, ...pure] }),
    ],
    // Many tests wait for a browser, a process or samples in real time; two at once keep even a small machine busy.
    maxWorkers: 2,
    sequence: { sequencer: LongFirst },
    // Bounds for a machine that hangs, not for a slow one.
    testTimeout: 120_000,
    hookTimeout: 180_000,
  },
});
