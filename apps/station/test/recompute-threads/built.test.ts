import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { build } from 'vite';
import { afterAll, expect, it } from 'vitest';
import { fillSmallLab, withLab } from '../filled-lab.ts';

const root = resolve(import.meta.dirname, '../../../..');
const folder = mkdtempSync(join(tmpdir(), 'sthene-threads-'));
// Inside the repository, so that the packages it leaves outside are found.
const built = mkdtempSync(join(root, 'node_modules/.cache-threads-'));
afterAll(() => {
  for (const one of [folder, built]) rmSync(one, { recursive: true, force: true });
});

it('judges in real threads to the last digit as in one, stands still while held, and names a damaged file', async () => {
  await withLab(folder, async (lab) => {
    await fillSmallLab(lab, 3);
    const recordings = join(lab.folder, 'recordings');
    const [file] = (readdirSync(recordings, { recursive: true }) as string[]).filter((name) =>
      statSync(join(recordings, name)).isFile(),
    );
    rmSync(join(recordings, file as string));
  });
  const conditions = ['source', 'node', 'module'];
  await build({
    configFile: false,
    root,
    logLevel: 'error',
    resolve: { conditions },
    ssr: { resolve: { conditions } },
    build: {
      ssr: true,
      outDir: built,
      emptyOutDir: false,
      rollupOptions: {
        input: {
          child: join(import.meta.dirname, 'built-child.ts'),
          thread: join(root, 'apps/station/src/work/recompute/judging/thread.ts'),
        },
        output: { entryFileNames: '[name].js', chunkFileNames: '[name].js' },
      },
    },
  });
  const { NODE_OPTIONS: _, ...env } = process.env;
  const run = spawnSync(process.execPath, [join(built, 'child.js'), folder], { encoding: 'utf8', env });
  expect(run.stderr).toBe('');
  expect(JSON.parse(run.stdout)).toEqual({ trials: 9, same: true, quiet: true, failed: ['file-damaged'] });
});
