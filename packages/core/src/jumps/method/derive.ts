import { methodReference } from '../../methods/hash.ts';
import type { CheckChoice } from '../../methods/method.ts';
import type { ProtocolDocument } from '../../protocols/lab/document.ts';
import { jumpCheckRegistry } from '../checks/index.ts';
import { flightRules } from '../flight.ts';
import { jumpOnsetRules } from '../onset.ts';
import type { JumpMethod } from './jump-method.ts';

/** Changes by path: `onset.rule`, `flight.rule`, `checks.<id>` (`on` or `off`), `checks.<id>.limits.<limit>`. */
export type JumpMethodChanges = Readonly<Record<string, number | string>>;

/**
 * A jump method that differs from a named one in a few places: named, hashed and marked as derived. No changes give the method itself.
 *
 * @throws RangeError for a path or a value that is none; what a person typed is checked before (`validateProtocol`)
 */
export function deriveJumpMethod(method: JumpMethod, changes: JumpMethodChanges): JumpMethod {
  const paths = Object.keys(changes).sort();
  if (paths.length === 0) return method;
  let made = method;
  for (const path of paths) made = changed(made, path, changes[path] as number | string);
  return {
    ...made,
    name: `${method.name}, with ${paths.map((path) => `${path} ${changes[path]}`).join(', ')}`,
    derivedFrom: {
      ...methodReference(method),
      changes: Object.fromEntries(paths.map((path) => [path, changes[path] as number | string])),
    },
  };
}

function changed(method: JumpMethod, path: string, value: number | string): JumpMethod {
  if (path === 'onset.rule') {
    const rule = jumpOnsetRules.get(String(value));
    if (rule !== undefined) return { ...method, onset: { rule: rule.id, version: rule.version } };
  } else if (path === 'flight.rule') {
    const rule = flightRules[String(value)];
    if (rule !== undefined)
      return { ...method, flight: { ...method.flight, rule: String(value), version: rule.version } };
  } else {
    const [, id = '', limit] = /^checks\.(\w+)(?:\.limits\.(\w+))?$/u.exec(path) ?? [];
    const checks = changedChecks(method.checks, id, limit, value);
    if (checks !== undefined) return { ...method, checks };
  }
  throw new RangeError(`A jump method has no "${path}" of ${value}.`);
}

function changedChecks(
  checks: Readonly<Record<string, CheckChoice>>,
  id: string,
  limit: string | undefined,
  value: number | string,
): Readonly<Record<string, CheckChoice>> | undefined {
  const known = jumpCheckRegistry.get(id);
  if (known === undefined) return undefined;
  const there = checks[id];
  if (limit === undefined) {
    const { [id]: _, ...rest } = checks;
    if (value === 'off') return rest;
    return value === 'on'
      ? { ...rest, [id]: { version: known.version, limits: { ...known.defaultLimits } } }
      : undefined;
  }
  if (there === undefined || !(limit in known.defaultLimits) || typeof value !== 'number') return undefined;
  return { ...checks, [id]: { ...there, limits: { ...there.limits, [limit]: value } } };
}

const derived = new WeakMap<JumpMethod, WeakMap<ProtocolDocument, JumpMethod>>();

/**
 * A jump method with the checks as a protocol has them: the method itself where the protocol changes nothing, else one derived from
 * it, which results name.
 */
export function jumpMethodOfProtocol(method: JumpMethod, document: ProtocolDocument): JumpMethod {
  const known = derived.get(method) ?? new WeakMap<ProtocolDocument, JumpMethod>();
  derived.set(method, known);
  let found = known.get(document);
  if (found === undefined) {
    const changes: Record<string, number | string> = {};
    for (const [id, { use, limits = {} }] of Object.entries(document.checks)) {
      const there = method.checks[id];
      if (!use) {
        if (there !== undefined) changes[`checks.${id}`] = 'off';
        continue;
      }
      if (there === undefined) changes[`checks.${id}`] = 'on';
      for (const [limit, value] of Object.entries(limits))
        if (there?.limits[limit] !== value) changes[`checks.${id}.limits.${limit}`] = value;
    }
    found = deriveJumpMethod(method, changes);
    known.set(document, found);
  }
  return found;
}
