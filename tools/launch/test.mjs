// `npm test`: installs what is missing, runs every check and every test, and ends with the line `N passed, N failed`.
// `npm test -- PATTERN...` runs only the test files whose path contains a pattern.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  checkNode,
  ensureBrowser,
  ensureDependencies,
  ensurePostgres,
  installed,
  installPrograms,
  root,
  run,
  say,
  startBuild,
} from './machine.mjs';

checkNode();
await Promise.all([ensureDependencies(), installPrograms()]);

const patterns = process.argv.slice(2);
const totals = { passed: 0, failed: 0, skipped: 0 };
const missing = [];

async function check(title, ...args) {
  const ok = await run(process.execPath, args);
  totals[ok ? 'passed' : 'failed'] += 1;
  say(`${ok ? 'passed' : 'FAILED'}: ${title}`);
}

// Two at a time, for each takes one core: what needs the packages built, and what needs the sources alone.
const { packages, web } = startBuild();
const checks = patterns.length === 0;
await Promise.all([
  packages.then(async () => {
    if (checks) await check('types of tests, tools and bench', installed('typescript/bin/tsc'), '-b', 'tools');
  }),
  web.then(async () => {
    if (checks) {
      await check('format and lint', installed('@biomejs/biome/bin/biome'), 'check', '.');
      await check('who imports whom', join(root, 'tools/imports/check.mjs'));
      await check('types of the screens and their tests', installed('typescript/bin/tsc'), '-p', 'apps/web/dev');
    }
  }),
]);

const browser = ensureBrowser();
const postgres = ensurePostgres();
for (const one of [browser, postgres]) if (one.reason) missing.push(one.reason);

const folder = mkdtempSync(join(tmpdir(), 'sthene-test-'));
const report = join(folder, 'report.json');
const tests = spawnSync(
  process.execPath,
  [
    installed('vitest/vitest.mjs'),
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...patterns,
  ],
  {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    env: {
      ...process.env,
      STHENE_TEST_BUILT: '1',
      ...(browser.path ? { STHENE_TEST_BROWSER: browser.path } : {}),
    },
  },
);

if (existsSync(report)) {
  const result = JSON.parse(readFileSync(report, 'utf8'));
  totals.passed += result.numPassedTests;
  totals.failed += result.numFailedTests;
  totals.skipped += result.numPendingTests + (result.numTodoTests ?? 0);
  // a suite that could not even be loaded has no tests to fail
  const broken = result.testResults.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((one) => one.status === 'failed'),
  ).length;
  totals.failed += broken;
}
if (tests.status !== 0 && totals.failed === 0) totals.failed = 1;
rmSync(folder, { recursive: true, force: true });

for (const reason of missing) console.log(`skipped: ${reason}`);
if (totals.skipped) console.log(`${totals.skipped} tests were skipped; each says why above.`);
console.log(`${totals.passed} passed, ${totals.failed} failed`);
process.exit(totals.failed ? 1 : 0);
