// What this machine has and can be given: dependencies, a build, a browser, PostgreSQL. Plain JavaScript without
// dependencies, since it runs on an empty clone.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const cache = join(root, 'node_modules', '.cache', 'sthene');

export const say = (words) => process.stderr.write(`${words}\n`);

/** Runs a program with its output shown; returns whether it ended well. */
export function run(program, args, options = {}) {
  // npm is a script on Windows, which needs a shell to be found
  const shell = process.platform === 'win32' && program === 'npm';
  return spawnSync(program, args, { cwd: root, stdio: ['ignore', 2, 2], shell, ...options }).status === 0;
}

export function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  say(`Sthene needs Node.js 20.19 or newer; this is ${process.versions.node}. Install a newer one, then try again.`);
  process.exit(1);
}

/** Installs the locked dependencies unless exactly these are installed already. */
export function ensureDependencies() {
  const stamp = join(root, 'node_modules', '.sthene-installed');
  const wanted = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .update(process.versions.modules)
    .digest('hex');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  say('Installing what Sthene needs (once; a few minutes) ...');
  if (!run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel', 'error'])) {
    say(
      'The installation failed; the lines above say why. One package is compiled here when no ready-made file fits: it needs',
    );
    say('python3, make and a C++ compiler (on Debian: apt-get install python3 make g++). Then try again.');
    process.exit(1);
  }
  writeFileSync(stamp, wanted);
}

/** Builds unless nothing that goes into a build has changed since the last one. */
export function ensureBuild() {
  const stamp = join(cache, 'build');
  const wanted = buildFingerprint();
  const complete =
    existsSync(join(root, 'apps/cli/dist/main.js')) && existsSync(join(root, 'apps/web/dist/index.html'));
  if (complete && existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  say('Building ...');
  if (!run('npm', ['run', '--silent', 'build'])) {
    say('The build failed; the lines above say where.');
    process.exit(1);
  }
  mkdirSync(cache, { recursive: true });
  writeFileSync(stamp, wanted);
}

function buildFingerprint() {
  const hash = createHash('sha256');
  const add = (path) => {
    const entry = statSync(path);
    if (entry.isDirectory()) {
      for (const name of readdirSync(path).sort())
        if (name !== 'node_modules' && !name.startsWith('dist')) add(join(path, name));
    } else if (!path.endsWith('.tsbuildinfo')) hash.update(path).update(readFileSync(path));
  };
  for (const name of ['packages', 'apps', 'package-lock.json', 'tsconfig.base.json', 'tsconfig.json'])
    add(join(root, name));
  return hash.digest('hex');
}

/** True where this process may install Debian packages. */
function mayInstallDebianPackages() {
  return process.platform === 'linux' && process.getuid?.() === 0 && spawnSync('apt-get', ['--version']).status === 0;
}

let listsFresh = false;

function installDebianPackages(names) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  say(`Installing ${names.join(', ')} ...`);
  if (!listsFresh) listsFresh = run('apt-get', ['update', '-qq'], { env, stdio: 'ignore' });
  return run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...names], { env, stdio: 'ignore' });
}

const browserPlaces = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

/** A Chromium for the browser tests: one that is there, else installed, else the reason why not. */
export function ensureBrowser() {
  const find = () => [process.env.STHENE_TEST_BROWSER, ...browserPlaces].find((path) => path && existsSync(path));
  const there = find();
  if (there) return { path: there };
  if (mayInstallDebianPackages() && installDebianPackages(['chromium'])) {
    const installed = find();
    if (installed) return { path: installed };
  }
  const fetched = fetchBrowser();
  if (fetched) return { path: fetched };
  return { reason: 'no Chromium found; install Chromium or Chrome, or set STHENE_TEST_BROWSER to its path' };
}

/** The driver's own download of a browser, into the user's cache; no rights needed. */
function fetchBrowser() {
  const driver = join(root, 'node_modules', 'playwright-core', 'cli.js');
  if (spawnSync(process.execPath, [driver, 'install', 'chromium'], { stdio: 'ignore', timeout: 300_000 }).status !== 0)
    return undefined;
  const where = spawnSync(
    process.execPath,
    [
      '--input-type=module',
      '-e',
      "import { chromium } from 'playwright-core'; process.stdout.write(chromium.executablePath())",
    ],
    { cwd: root, encoding: 'utf8' },
  );
  return existsSync(where.stdout) ? where.stdout : undefined;
}

/** PostgreSQL's own programs for the store suite: there, installed, or the reason why not. */
export function ensurePostgres() {
  if (process.env.STHENE_TEST_POSTGRES) return {};
  const there = () => {
    const debian = '/usr/lib/postgresql';
    if (existsSync(debian) && readdirSync(debian).some((version) => existsSync(join(debian, version, 'bin', 'initdb'))))
      return true;
    return spawnSync('initdb', ['--version']).status === 0;
  };
  if (there() || (mayInstallDebianPackages() && installDebianPackages(['postgresql']) && there())) return {};
  return {
    reason:
      'no PostgreSQL found; install the PostgreSQL server programs (on Debian: postgresql), or set STHENE_TEST_POSTGRES to a connection string',
  };
}
