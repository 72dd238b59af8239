import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { recordingOf, simulatePull } from '@sthene/core';
import { formatOf } from '@sthene/formats';
import { afterAll } from 'vitest';
import { run } from '../src/index.ts';

/** Runs a command line and keeps what it wrote where. */
export async function sthene(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  let out = '';
  let err = '';
  const code = await run(args, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    lively: false,
  });
  return { code, out, err };
}

/** A folder that goes away when the tests of the file are done. */
export function folder(): string {
  const path = mkdtempSync(join(tmpdir(), 'sthene-cli-'));
  afterAll(() => rmSync(path, { recursive: true, force: true }));
  return path;
}

/** Writes a simulated pull in our own text form and gives its path. */
export async function pullFile(into: string, seed: number, name = `pull-${seed}.csv`): Promise<string> {
  const text = formatOf('text');
  if (text?.write === undefined) throw new Error('the text format is not listed');
  const path = join(into, name);
  writeFileSync(path, await text.write(recordingOf(simulatePull({}, seed))));
  return path;
}
