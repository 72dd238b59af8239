import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { phases, refusals } from '../../src/engine/index.ts';

const page = readFileSync(new URL('../../../../docs/reference/live-phases.md', import.meta.url), 'utf8');
const section = (title: string): string => page.split(`\n## ${title}\n`)[1]!.split('\n## ')[0]!;
const codes = (text: string): string[] => [...text.matchAll(/^\| `([a-z-]+)` \|/gmu)].map((match) => match[1]!);

it('lists every refusal code and every phase', () => {
  expect(codes(section('Refusal codes')).sort()).toEqual(Object.keys(refusals).sort());
  expect(codes(section('Phases'))).toEqual([...phases]);
});
