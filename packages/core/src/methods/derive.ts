import { checkRegistry } from '../checks/index.ts';
import { onsetRegistry } from '../onset/index.ts';
import { methodReference } from './hash.ts';
import type { Method } from './method.ts';
import { type MethodOutcome, type MethodProblem, validateMethod } from './validate.ts';

/** Changes by path, as in `{ 'window.baseline': 0.5, 'onset.rule': 'three-sd' }`. */
export type MethodChanges = Readonly<Record<string, number | string>>;

/**
 * A method that differs from a named one in a few places: named, hashed and marked as derived.
 *
 * Paths: `window.*`, `onset.rule` (brings its current version with it), `filter.cutoff` (Hz; 0 takes the filter away), `set.*`,
 * `allometricExponent`, `checks.<id>` (`off` takes the check away, `on` adds it with its usual limits),
 * `checks.<id>.limits.<limit>`. No changes give the method itself.
 *
 * @returns the derived method, or every problem of the changes: an unknown path is `method-unknown-field`
 */
export function deriveMethod(method: Method, changes: MethodChanges): MethodOutcome {
  const paths = Object.keys(changes).sort();
  if (paths.length === 0) return { ok: true, method };
  const document = structuredClone(method) as unknown as Tree;
  const problems: MethodProblem[] = [];
  for (const path of paths) {
    const value = changes[path] as number | string;
    if (!changeable.test(path) || !put(document, path, value)) {
      const expected =
        'window.*, onset.rule, filter.cutoff, set.*, allometricExponent, checks.<id>, checks.<id>.limits.<limit>';
      problems.push({ code: 'method-unknown-field', at: path, expected, found: path });
    }
  }
  if (problems.length > 0) return { ok: false, problems };
  const sorted = Object.fromEntries(paths.map((path) => [path, changes[path] as number | string]));
  document.derivedFrom = { ...methodReference(method), changes: sorted };
  document.name = `${method.name}, with ${paths.map((path) => `${path} ${changes[path]}`).join(', ')}`;
  return validateMethod(document);
}

type Tree = { [key: string]: unknown };

const changeable =
  /^(window\.(baseline|anchor|search|clearance)|onset\.rule|filter\.cutoff|set\.(summary|agreement|agreementShare|closesAfter)|allometricExponent|checks\.\w+|checks\.\w+\.limits\.\w+)$/u;

/** Sets a value by path; false when something on the way is not there. */
function put(document: Tree, path: string, value: number | string): boolean {
  if (path === 'filter.cutoff') {
    if (value === 0) delete document.filter;
    else document.filter = { kind: 'butterworth-zero-lag', cutoff: value };
    return true;
  }
  if (path === 'onset.rule') {
    const version = onsetRegistry.get(String(value))?.version ?? 1;
    document.onset = { rule: value, version };
    return true;
  }
  const check = /^checks\.(\w+)$/u.exec(path)?.[1];
  if (check !== undefined) return switchCheck(document.checks as Tree, check, value);
  const names = path.split('.');
  const last = names.pop() as string;
  let place: unknown = document;
  for (const name of names) {
    if (typeof place !== 'object' || place === null || !Object.hasOwn(place, name)) return false;
    place = (place as Tree)[name];
  }
  if (typeof place !== 'object' || place === null) return false;
  (place as Tree)[last] = value;
  return true;
}

/** Takes a check away or adds it in its current version. */
function switchCheck(checks: Tree, id: string, value: number | string): boolean {
  const known = checkRegistry.get(id);
  if (value === 'off' && Object.hasOwn(checks, id)) delete checks[id];
  else if (value === 'on' && known !== undefined)
    checks[id] = { version: known.version, limits: { ...known.defaultLimits } };
  else return false;
  return true;
}
