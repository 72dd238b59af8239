import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const screens = new URL('../screens/', import.meta.url).pathname;

/** Named alike on purpose: the rules are the same wherever they stand. */
const shared = new Set(['right', 'dots', 'live-page', 'bone', 'standing', 'acts']);

/** Every rule of a style sheet by the class its selector begins with. */
function leading(css: string): Set<string> {
  const found = new Set<string>();
  for (const [, selectors = ''] of css.replace(/\/\*[\s\S]*?\*\//g, '').matchAll(/(?:^|[{}])\s*([^@{}]+)\{/g))
    for (const selector of selectors.split(/,(?![^(]*\))/)) {
      const name = /^\s*\.([\w-]+)/.exec(selector)?.[1];
      if (name !== undefined) found.add(name);
    }
  return found;
}

describe('style sheets of screens', () => {
  it('name no class that another screen names: a sheet stays loaded when one goes on to the next screen', () => {
    const owners = new Map<string, Set<string>>();
    for (const screen of readdirSync(screens))
      for (const file of readdirSync(join(screens, screen)).filter((name) => name.endsWith('.css')))
        for (const name of leading(readFileSync(join(screens, screen, file), 'utf8')))
          owners.set(name, (owners.get(name) ?? new Set()).add(screen));
    expect(owners.size).toBeGreaterThan(200);
    const clashes = [...owners].filter(([name, { size }]) => size > 1 && !shared.has(name));
    expect(clashes.map(([name, where]) => `${name}: ${[...where].join(', ')}`)).toEqual([]);
  });
});
