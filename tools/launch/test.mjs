// `npm test`: installs what is missing, runs every check and every test, and ends with the line `N passed, N failed`.
// `npm test -- PATTERN...` runs only the test files whose path contains a pattern.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  checkNode,
  ensureBrowser,
  ensureBuild,
  ensureDependencies,
  ensurePostgres,
  root,
  run,
  say,
} from './machine.mjs';

checkNode();
ensureDependencies();

const patterns = process.argv.slice(2);
const totals = { passed: 0, failed: 0, skipped: 0 };
const missing = [];

function check(title, program, args) {
  const ok = run(program, args);
  totals[ok ? 'passed' : 'failed'] += 1;
  say(`${ok ? 'passed' : 'FAILED'}: ${title}`);
}

const tool = (name) => join(root, 'node_modules', name);
ensureBuild();
if (patterns.length === 0) {
  check('format and lint', process.execPath, [tool('@biomejs/biome/bin/biome'), 'check', '.']);
  check('who imports whom', process.execPath, [join(root, 'tools/imports/check.mjs')]);
  check('types of tests, tools and bench', process.execPath, [tool('typescript/bin/tsc'), '-b', 'tools']);
  check('types of the screens and their tests', process.execPath, [tool('typescript/bin/tsc'), '-p', 'apps/web/dev']);
}

const browser = ensureBrowser();
const postgres = ensurePostgres();
for (const one of [browser, postgres]) if (one.reason) missing.push(one.reason);

const folder = mkdtempSync(join(tmpdir(), 'sthene-test-'));
const report = join(folder, 'report.json');
const tests = spawnSync(
  process.execPath,
  [
    tool('vitest/vitest.mjs'),
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...patterns,
  ],
  {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    env: { ...process.env, ...(browser.path ? { STHENE_TEST_BROWSER: browser.path } : {}) },
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
