import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const source = fileURLToPath(new URL('../../src/', import.meta.url));
const page = readFileSync(new URL('../../../../docs/reference/devices.md', import.meta.url), 'utf8');

/** Codes and statuses of every refusal that is made in a folder. */
const refusalsIn = (folder: string) =>
  readdirSync(`${source}${folder}`).flatMap((file) =>
    [...readFileSync(`${source}${folder}/${file}`, 'utf8').matchAll(/new ProblemError\(\s*(\d+),\s*'([a-z-]+)'/g)].map(
      ([, status, code]) => `${code} ${status}`,
    ),
  );

describe('refusals of devices and the network', () => {
  it('stand on their page, and nothing else does', () => {
    const made = [...refusalsIn('access'), ...refusalsIn('network')].sort();
    const listed = [...page.matchAll(/^\| `([a-z-]+)` \| (\d+) \|/gm)].map(([, code, status]) => `${code} ${status}`);
    expect(made.length).toBeGreaterThan(10);
    expect(listed.sort()).toEqual(made);
  });
});
