// What this machine has and can be given: dependencies, a build, a browser, PostgreSQL. Plain JavaScript without
// dependencies, since it runs on an empty clone.
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { setPriority } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const cache = join(root, 'node_modules', '.cache', 'sthene');

export const say = (words) => process.stderr.write(`${words}\n`);

/** Path of a file of an installed package. */
export const installed = (name) => join(root, 'node_modules', name);

/**
 * Runs a program, others beside it if need be; resolves with whether it ended well. Its output is shown when it has ended, in one piece,
 * so that two programs do not talk into each other, unless `stdio` says otherwise; `priority` is one of `os.constants.priority`.
 */
export function run(program, args, { priority, ...options } = {}) {
  // npm is a script on Windows, which needs a shell to be found
  const shell = process.platform === 'win32' && program === 'npm';
  const child = spawn(program, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'], shell, ...options });
  if (priority !== undefined && child.pid !== undefined) setPriority(child.pid, priority);
  const said = [];
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (piece) => said.push(piece));
  return new Promise((done) => {
    child.once('error', (error) => said.push(Buffer.from(`${program}: ${error.message}\n`)));
    child.once('close', (code) => {
      process.stderr.write(Buffer.concat(said));
      done(code === 0);
    });
  });
}

export function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  say(`Sthene needs Node.js 20.19 or newer; this is ${process.versions.node}. Install a newer one, then try again.`);
  process.exit(1);
}

/**
 * Installs the locked dependencies unless exactly these are installed already. Resolves when they can be built with; `compiled`, when the
 * parts that are compiled here can be run too, which takes a minute or two more where no ready-made file fits.
 */
export async function ensureDependencies() {
  const stamp = join(root, 'node_modules', '.sthene-installed');
  const wanted = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .update(process.versions.modules)
    .digest('hex');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return { compiled: Promise.resolve() };
  say('Installing what Sthene needs (once; a few minutes) ...');
  await npm('ci', '--no-audit', '--no-fund', '--ignore-scripts');
  return { compiled: npm('rebuild').then(() => writeFileSync(stamp, wanted)) };
}

async function npm(...args) {
  if (await run('npm', [...args, '--loglevel', 'error'])) return;
  say(
    'The installation failed; the lines above say why. One package is compiled here when no ready-made file fits: it needs',
  );
  say('python3, make and a C++ compiler (on Debian: apt-get install python3 make g++). Then try again.');
  process.exit(1);
}

/**
 * Builds unless nothing that goes into a build has changed since the last one. Types are checked by `npm test`, not by whoever starts the
 * station. The web app is bundled from the sources, so that it is built beside the packages. What fails ends this process.
 */
export async function ensureBuild() {
  const stamp = join(cache, 'build');
  const wanted = buildFingerprint();
  const complete =
    existsSync(join(root, 'apps/cli/dist/main.js')) && existsSync(join(root, 'apps/web/dist/index.html'));
  if (complete && existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  say('Building ...');
  const part = async (args, options) => {
    if (await run(process.execPath, args, options)) return;
    say('The build failed; the lines above say where.');
    process.exit(1);
  };
  await Promise.all([
    part([installed('typescript/bin/tsc'), '-b', '--noCheck']),
    part([installed('vite/bin/vite.js'), 'build', '--logLevel', 'warn'], { cwd: join(root, 'apps/web') }),
  ]);
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

/** Installs the programs that tests need and this machine lacks, where that may be done. Needs no dependency of our own. */
export async function installPrograms() {
  const names = [
    ...(findBrowser() ? [] : ['chromium']),
    ...(findPostgres() ? [] : ['postgresql']),
    // a pair of serial ports
    ...(spawnSync('socat', ['-V']).status === 0 ? [] : ['socat']),
  ];
  if (names.length === 0 || !mayInstallDebianPackages()) return;
  say(`Installing ${names.join(', ')} ...`);
  const options = { env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }, stdio: 'ignore' };
  await run('apt-get', ['update', '-qq'], options);
  // One by one: the lack of one is no reason to go without the other.
  for (const name of names) await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', name], options);
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

const findBrowser = () => [process.env.STHENE_TEST_BROWSER, ...browserPlaces].find((path) => path && existsSync(path));

/** A Chromium for the browser tests: one that is there, else fetched, else the reason why not. */
export function ensureBrowser() {
  const there = findBrowser();
  if (there) return { path: there };
  const fetched = fetchBrowser();
  if (fetched) return { path: fetched };
  return { reason: 'no Chromium found; install Chromium or Chrome, or set STHENE_TEST_BROWSER to its path' };
}

/** The driver's own download of a browser, into the user's cache; no rights needed. */
function fetchBrowser() {
  const driver = installed('playwright-core/cli.js');
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

function findPostgres() {
  const debian = '/usr/lib/postgresql';
  if (process.env.STHENE_TEST_POSTGRES) return true;
  if (existsSync(debian) && readdirSync(debian).some((version) => existsSync(join(debian, version, 'bin', 'initdb'))))
    return true;
  return spawnSync('initdb', ['--version']).status === 0;
}

/** PostgreSQL's own programs for the store suite: there, or the reason why not. */
export function ensurePostgres() {
  if (findPostgres()) return {};
  return {
    reason:
      'no PostgreSQL found; install the PostgreSQL server programs (on Debian: postgresql), or set STHENE_TEST_POSTGRES to a connection string',
  };
}
