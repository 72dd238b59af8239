import type { Method } from '../method.ts';
import { methodTitle, methodValue } from './fields.ts';

/** One place where two methods differ, in words; `before` or `after` is absent where something was added or taken away. */
export interface MethodDifference {
  /** Path in the document, as in `window.baseline`. */
  readonly at: string;
  readonly title: string;
  readonly before?: string;
  readonly after?: string;
}

/**
 * What differs between two methods, in the order of the document. Name, version and words about it stay aside: two methods without a
 * difference judge every trial alike.
 */
export function methodDifferences(before: Method, after: Method): MethodDifference[] {
  const [a, b] = [leavesOf(before), leavesOf(after)];
  return [...new Set([...a.keys(), ...b.keys()])].flatMap((at) => {
    const [was, is] = [a.get(at), b.get(at)];
    if (was === is || inAddedCheck(at, a, b)) return [];
    return [
      {
        at,
        title: methodTitle(at),
        ...(was === undefined ? {} : { before: methodValue(at, was) }),
        ...(is === undefined ? {} : { after: methodValue(at, is) }),
      },
    ];
  });
}

/** The same as changes by path, as `derivedFrom` keeps them: a check or metric that was taken away is `off`, a filter 0. */
export function methodChanges(before: Method, after: Method): Record<string, number | string> {
  const [a, b] = [leavesOf(before), leavesOf(after)];
  const changes: Record<string, number | string> = {};
  for (const at of new Set([...a.keys(), ...b.keys()])) {
    const is = b.get(at);
    if (a.get(at) === is || at === 'onset.version' || (is === undefined && inAddedCheck(at, a, b))) continue;
    if (is !== undefined) changes[at] = /^checks\.\w+$/u.test(at) ? 'on' : is;
    else changes[at] = at === 'filter.cutoff' ? 0 : 'off';
  }
  return changes;
}

/** Limits of a check that only one of the two methods has: the check itself says so. */
function inAddedCheck(at: string, a: Leaves, b: Leaves): boolean {
  const check = /^(checks\.\w+)\.limits\./u.exec(at)?.[1];
  return check !== undefined && a.has(check) !== b.has(check);
}

type Leaves = ReadonlyMap<string, number | string>;

function leavesOf(method: Method): Leaves {
  const leaves = new Map<string, number | string>();
  const put = (at: string, value: number | string | undefined) => {
    if (value !== undefined) leaves.set(at, value);
  };
  put('filter.cutoff', method.filter?.cutoff);
  put('onset.rule', method.onset.rule);
  put('onset.version', method.onset.version);
  for (const [name, value] of Object.entries(method.window)) put(`window.${name}`, value);
  for (const [id, version] of Object.entries(method.metrics)) put(`metrics.${id}`, version);
  for (const [id, { version, limits }] of Object.entries(method.checks)) {
    put(`checks.${id}`, version);
    for (const [limit, value] of Object.entries(limits)) put(`checks.${id}.limits.${limit}`, value);
  }
  for (const [name, value] of Object.entries(method.set)) put(`set.${name}`, value);
  put('allometricExponent', method.allometricExponent);
  return leaves;
}
