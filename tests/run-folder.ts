import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A folder that all test files of one run share; gone after it. */
export default function setup(): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-run-'));
  process.env.STHENE_TEST_RUN = folder;
  return () => rmSync(folder, { recursive: true, force: true });
}
