import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A folder that all test files of one run share; gone after it. */
export default function setup(): (() => void) | undefined {
  // Each project of the tests asks for it.
  if (process.env.STHENE_TEST_RUN !== undefined) return undefined;
  const folder = mkdtempSync(join(tmpdir(), 'sthene-run-'));
  process.env.STHENE_TEST_RUN = folder;
  return () => {
    delete process.env.STHENE_TEST_RUN;
    rmSync(folder, { recursive: true, force: true });
  };
}
