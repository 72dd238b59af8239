import { readFileSync } from 'node:fs';
import { jumpCheckRegistry, jumpMetricRegistry, jumpOnsetRules } from '@sthene/core';
import { expect, it } from 'vitest';
import { jumpsPage, jumpsPageWith } from './jumps.ts';

it('says every metric, check, rule and method of jumps as the program has them', () => {
  const text = readFileSync(jumpsPage, 'utf8');
  expect(text, 'Run: npx tsx --conditions=source tools/docs/jumps.ts').toBe(jumpsPageWith(text));
  for (const { id } of [...jumpMetricRegistry.all, ...jumpCheckRegistry.all, ...jumpOnsetRules.all])
    expect(text).toContain(`\`${id}\``);
});
