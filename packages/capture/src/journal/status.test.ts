import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { journalStatus, journalStatusCodes } from './status.ts';

const page = readFileSync(new URL('../../../../docs/reference/journal-format.md', import.meta.url), 'utf8');

describe('what a journal tells', () => {
  it('is documented, code by code, with its severity', () => {
    const rows = [...page.matchAll(/^\| `([a-z-]+)` \| (note|warning|alarm) \|/gm)].map(([, code, severity]) => [
      code,
      severity,
    ]);
    expect(rows).toEqual(journalStatusCodes.map((code) => [code, journalStatus(code).severity]));
  });

  it('has words that are whole when the figures are given', () => {
    const details = { cause: 'EIO', segment: 'capture-000001.0001.journal', minutes: 12, first: 500, seconds: 1.5 };
    for (const code of journalStatusCodes) {
      const { words } = journalStatus(code, details);
      expect(words).toMatch(/\.$/);
      expect(words).not.toContain('undefined');
    }
  });
});
