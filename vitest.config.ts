import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { LongFirst } from './tests/long-first.ts';

// "source" makes workspaces resolve to their TypeScript, so that a run of vitest by itself needs no build. `npm test` has built everything
// when it comes here: there a workspace is taken as users get it, and Node reads it by itself, in half the time.
const built = process.env.STHENE_TEST_BUILT === '1';
const conditions = [...(built ? [] : ['source']), 'node', 'module'];
const readByNode = built ? [/\/(packages|apps)\/\w+\/dist\//] : [];

/** Real sockets, files that come and senders that stall. */
const wires = ['packages/capture/test/{sources,streaming}/**/*.test.ts'];
const never = ['**/node_modules/**', '**/dist/**'];
/**
 * Files of one project run one after the other in the same processes and share what they import and start, which halves the time they
 * take. So no module may keep anything from one test file for another, apart from what is meant to be shared.
 */
const project = (
  name: string,
  include: string[],
  more: { globalSetup?: string[]; exclude?: string[]; testTimeout?: number; hookTimeout?: number } = {},
) => ({
  extends: true as const,
  test: { name, include, exclude: never, isolate: false, server: { deps: { external: readByNode } }, ...more },
});

export default defineConfig({
  resolve: { conditions },
  ssr: { resolve: { conditions } },
  test: {
    globalSetup: ['./tests/run-folder.ts'],
    projects: [
      project('browser', ['tests/browser/**/*.test.ts']),
      project('station', [
        'apps/{station,cli}/{src,test}/**/*.test.ts',
        'bench/**/*.test.ts',
        'tests/torture/**/*.test.ts',
      ]),
      project('store', ['packages/store/**/*.test.ts'], { globalSetup: ['./packages/store/test/one-postgres.ts'] }),
      project('wires', wires),
      // Computes and waits for nothing, so that it can be kept back for as long as anything else has work to do.
      project(
        'pure',
        [
          'packages/{core,contract,formats,report,capture}/**/*.test.ts',
          'apps/web/src/**/*.test.{ts,tsx}',
          'tests/reference/**/*.test.ts',
          'tools/**/*.test.ts',
        ],
        { exclude: [...never, ...wires], testTimeout: 900_000, hookTimeout: 900_000 },
      ),
    ],
    // A test of samples in real time drives a station, plates and a browser, which is work for a core and more.
    maxWorkers: Math.max(2, Math.floor(availableParallelism() / 2)),
    sequence: { sequencer: LongFirst },
    // Bounds for a machine that hangs, not for a slow one.
    testTimeout: 120_000,
    hookTimeout: 300_000,
  },
});
