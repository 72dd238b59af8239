import { mkdtemp, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { build } from 'vite';

const root = resolve(import.meta.dirname, '../..');

/** A child as one plain script, so that thousands of them start quickly. Remove it when done. */
export async function builtChild(entry: string): Promise<{ script: string; remove(): Promise<void> }> {
  // Inside the repository, so that the packages it leaves outside are found.
  const folder = await mkdtemp(join(root, 'node_modules/.cache-torture-'));
  await build({
    configFile: false,
    root,
    logLevel: 'error',
    resolve: { conditions: ['source', 'node', 'module'] },
    ssr: { resolve: { conditions: ['source', 'node', 'module'] } },
    build: {
      ssr: entry,
      outDir: folder,
      emptyOutDir: false,
      rollupOptions: { output: { entryFileNames: 'child.mjs' } },
    },
  });
  return { script: join(folder, 'child.mjs'), remove: () => rm(folder, { recursive: true, force: true }) };
}
