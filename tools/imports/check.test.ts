import { describe, expect, it } from 'vitest';
// @ts-expect-error plain JavaScript, so that it also runs before anything is built
import { breaches, circles, importsOf } from './check.mjs';

const manifest = { dependencies: { '@sthene/core': '0.1.0', zod: '4' } };

describe('import check', () => {
  it('tells type imports from imports at run time', () => {
    expect(
      importsOf("import type { A } from './a.ts'; import { b } from './b.ts'; export * from './c.ts';", 'x.ts'),
    ).toEqual([
      { specifier: './a.ts', typesOnly: true },
      { specifier: './b.ts', typesOnly: false },
      { specifier: './c.ts', typesOnly: false },
    ]);
  });

  it('refuses a package outside the table, an undeclared one, a Node module and a path out of the package', () => {
    const of = (specifier: string, workspace = 'packages/formats') =>
      breaches(`${workspace}/src/x.ts`, [{ specifier, typesOnly: false }], workspace, manifest);
    expect(of('@sthene/core')).toEqual([]);
    expect(of('zod')).toEqual([]);
    expect(of('@sthene/store')).toHaveLength(1);
    expect(of('left-pad')).toHaveLength(1);
    expect(of('node:fs')).toHaveLength(1);
    expect(of('../../core/src/index.ts')).toHaveLength(1);
    expect(of('node:fs', 'apps/station')).toEqual([]);
  });

  it('finds a circle and passes a tree', () => {
    expect(
      circles(
        new Map([
          ['a', ['b']],
          ['b', ['c']],
          ['c', ['a']],
        ]),
      ),
    ).toEqual(['a -> b -> c -> a']);
    expect(
      circles(
        new Map([
          ['a', ['b', 'c']],
          ['b', ['c']],
          ['c', []],
        ]),
      ),
    ).toEqual([]);
  });
});
