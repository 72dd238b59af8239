import { existsSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { build } from 'vite';

const root = resolve(import.meta.dirname, '..');
const conditions = ['source', 'node', 'module'];

/** Where this run of the tests keeps what it shares; named by `tests/run-folder.ts`. */
const runFolder = process.env.STHENE_TEST_RUN;

/** What this process has built, by entry. */
const built = new Map<string, Promise<string>>();

/**
 * A TypeScript file that tests run as a process of its own, as one plain script: thousands of them start quickly, each in a fifth of the
 * time that the sources take. Built once in a process; gone with the run of the tests, or with `removeBuilt` where there is none.
 *
 * @returns path of the script
 */
export function builtChild(entry: string): Promise<string> {
  let script = built.get(entry);
  if (script === undefined) {
    script = buildChild(entry);
    built.set(entry, script);
  }
  return script;
}

/** Removes what this process has built outside a run of the tests. */
export async function removeBuilt(): Promise<void> {
  if (runFolder !== undefined) return;
  for (const script of built.values()) rmSync(resolve(await script, '..'), { recursive: true, force: true });
  built.clear();
}

async function buildChild(entry: string): Promise<string> {
  const folder = mkdtempSync(join(runFolder ?? tmpdir(), 'child-'));
  // Packages stay outside of the script, and are found as if it stood in the repository.
  const packages = join(folder, 'node_modules');
  if (!existsSync(packages)) symlinkSync(join(root, 'node_modules'), packages, 'junction');
  const name = `${basename(entry, '.ts')}.mjs`;
  await build({
    configFile: false,
    root,
    logLevel: 'error',
    resolve: { conditions },
    ssr: { resolve: { conditions } },
    build: {
      ssr: entry,
      outDir: folder,
      emptyOutDir: false,
      rollupOptions: { output: { entryFileNames: name } },
    },
  });
  return join(folder, name);
}
