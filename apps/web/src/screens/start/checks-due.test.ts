import type { RigView } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { checksDue } from './checks-due.ts';

type Check = NonNullable<RigView['check']>;
const rig = (id: string, check: Partial<Check> | undefined, virtual = false) =>
  ({
    ...{ id, letter: id.toUpperCase(), name: `Rig ${id}` },
    ...(virtual ? { virtual: { speed: 1 } } : {}),
    ...(check === undefined ? {} : { check: { standing: 'good', failed: false, corrected: [], ...check } }),
  }) as unknown as RigView;
const [at, due] = ['2025-03-02T09:00:00.000Z', '2026-03-02T09:00:00.000Z'];
const good = { at, verdict: 'passes', due } as const;

describe('plate checks that are due', () => {
  it('are none where all is good, and none of virtual plates that were never checked', () => {
    expect(checksDue([rig('a', good), rig('b', { standing: 'never' }, true), rig('c', undefined)])).toEqual([]);
  });

  it('come worst first, each with its reason', () => {
    const lines = checksDue([
      rig('a', { ...good, standing: 'soon' }),
      rig('b', { standing: 'never' }),
      rig('c', { ...good, standing: 'overdue' }),
      rig('d', { ...good, verdict: 'fails', failed: true }),
      rig('e', { at, verdict: 'incomplete', standing: 'never' }, true),
    ]);
    expect(lines.map(({ id, standing }) => `${id} ${standing}`)).toEqual([
      ...['d bad', 'b look', 'c look', 'e look', 'a open'],
    ]);
    expect(lines[0]?.why).toMatch(/failed.*2025/);
    expect(lines[2]?.why).toMatch(/due since.*2026/);
    expect(lines.at(-1)?.why).toMatch(/due soon.*2026/);
  });

  it('not of plates whose correction was adopted after they failed', () => {
    expect(checksDue([rig('a', { ...good, verdict: 'fails', failed: false })])).toEqual([]);
  });
});
