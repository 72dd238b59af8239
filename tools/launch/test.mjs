// `npm test`: installs what is missing, runs every check and every test, and ends with the line `N passed, N failed`.
// `npm test -- PATTERN...` runs only the test files whose path contains a pattern.
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { constants, tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  checkNode,
  ensureBrowser,
  ensureBuild,
  ensureDependencies,
  ensurePostgres,
  installed,
  installPrograms,
  root,
  run,
  say,
} from './machine.mjs';

checkNode();
const [{ compiled }] = await Promise.all([ensureDependencies(), installPrograms()]);
await ensureBuild();

const patterns = process.argv.slice(2);
const totals = { passed: 0, failed: 0, skipped: 0 };
const browser = ensureBrowser();
const postgres = ensurePostgres();
const folder = mkdtempSync(join(tmpdir(), 'sthene-test-'));

// What waits for a browser, a process or samples in real time goes first; what only computes takes the processor time that leaves, and
// does not make anything late. It needs nothing that npm compiles, so that it begins beside that.
const priority = constants.priority.PRIORITY_BELOW_NORMAL;

async function check(title, ...args) {
  const ok = await run(process.execPath, args, { priority });
  totals[ok ? 'passed' : 'failed'] += 1;
  say(`${ok ? 'passed' : 'FAILED'}: ${title}`);
}

/** Runs the tests of some projects and adds what they say to the totals; resolves with how many there were. */
async function test(projects, options) {
  const report = join(folder, `${projects[0]}.json`);
  const args = [
    'run',
    ...projects.map((name) => `--project=${name}`),
    '--passWithNoTests',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...patterns,
  ];
  const env = {
    ...process.env,
    STHENE_TEST_BUILT: '1',
    ...(browser.path ? { STHENE_TEST_BROWSER: browser.path } : {}),
  };
  const ok = await run(process.execPath, [installed('vitest/vitest.mjs'), ...args], { env, ...options });
  if (!existsSync(report)) {
    totals.failed += 1;
    return 0;
  }
  const result = JSON.parse(readFileSync(report, 'utf8'));
  // a suite that could not even be loaded has no tests to fail
  const broken = result.testResults.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((one) => one.status === 'failed'),
  ).length;
  const failed = result.numFailedTests + broken;
  totals.passed += result.numPassedTests;
  totals.skipped += result.numPendingTests + (result.numTodoTests ?? 0);
  totals.failed += !ok && failed === 0 ? 1 : failed;
  return result.numTotalTests + broken;
}

const counts = await Promise.all([
  compiled.then(() => test(['browser', 'station', 'wires', 'store'], { stdio: ['ignore', 'inherit', 'inherit'] })),
  (async () => {
    if (patterns.length === 0) {
      await check('types', installed('typescript/bin/tsc'), '-b', '.', 'tools');
      await check('types of the screens and their tests', installed('typescript/bin/tsc'), '-p', 'apps/web/dev');
      await check('format and lint', installed('@biomejs/biome/bin/biome'), 'check', '.');
      await check('who imports whom', join(root, 'tools/imports/check.mjs'));
    }
    return test(['pure'], { priority });
  })(),
]);
rmSync(folder, { recursive: true, force: true });
if (counts.every((count) => count === 0)) {
  say(`No test file has ${patterns.join(' or ')} in its path.`);
  totals.failed += 1;
}

for (const { reason } of [browser, postgres]) if (reason) console.log(`skipped: ${reason}`);
if (totals.skipped) console.log(`${totals.skipped} tests were skipped; each says why above.`);
console.log(`${totals.passed} passed, ${totals.failed} failed`);
process.exit(totals.failed ? 1 : 0);
