import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../', import.meta.url));
const require = createRequire(import.meta.url);

/** Compiles what is measured. Throws with the compiler's words. */
export function buildPackages(): void {
  const projects = ['packages/core', 'packages/formats', 'packages/contract', 'packages/store', 'packages/report'];
  node([join(dirname(require.resolve('typescript/package.json')), 'bin/tsc'), '-b', ...projects], root);
}

/** Compiles the station alone. */
export function buildStationPackage(): void {
  node([join(dirname(require.resolve('typescript/package.json')), 'bin/tsc'), '-b', 'apps/station'], root);
}

/** Compiles the station and bundles the web app as `npm run build` does, but into a folder of its own. */
export function buildStation(webFolder: string): void {
  buildStationPackage();
  const vite = join(dirname(require.resolve('vite/package.json')), 'bin/vite.js');
  node([vite, 'build', '--outDir', webFolder, '--emptyOutDir', '--logLevel', 'error'], join(root, 'apps/web'));
  if (!existsSync(join(webFolder, 'index.html'))) throw new Error('The web app was not built.');
}

function node(args: string[], cwd: string): void {
  // Workspaces must be taken as users get them, so no conditions are handed on.
  const { NODE_OPTIONS: _, ...env } = process.env;
  const done = spawnSync(process.execPath, args, { cwd, encoding: 'utf8', env });
  if (done.status !== 0) throw new Error(`${args.join(' ')}\n${done.stdout}${done.stderr}`);
}
