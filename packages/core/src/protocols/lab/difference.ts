import { canonicalJson, type Json } from '../../methods/canonical.ts';
import type { ProtocolDocument } from './document.ts';
import { sayValue, titleAt } from './titles.ts';

/** One place where two versions differ, in words; `before` or `after` is absent where something was added or taken away. */
export interface ProtocolDifference {
  /** Path in the document, as in `rest.minimum`. */
  readonly at: string;
  readonly title: string;
  readonly before?: string;
  readonly after?: string;
}

/** Places that say which version it is, not how the day is run. */
const aside = new Set(['schema', 'version', 'note', 'succeeds']);

/**
 * What differs between two versions, in the order of the document. Setup fields are compared by id, checks by check, lists by
 * position. Two versions without a difference run the day alike.
 */
export function protocolDifferences(before: ProtocolDocument, after: ProtocolDocument): ProtocolDifference[] {
  const found: ProtocolDifference[] = [];
  const a = leavesOf(before);
  const b = leavesOf(after);
  for (const at of new Set([...a.keys(), ...b.keys()])) {
    const [was, is] = [a.get(at), b.get(at)];
    if (same(was, is)) continue;
    found.push({
      at,
      title: titleAt(at, before, after),
      ...(was === undefined ? {} : { before: sayValue(at, was) }),
      ...(is === undefined ? {} : { after: sayValue(at, is) }),
    });
  }
  return found;
}

const same = (a: unknown, b: unknown): boolean =>
  a !== undefined && b !== undefined && canonicalJson(a as Json) === canonicalJson(b as Json);

/** The values of a document by path: whole entries of lists, whole setup fields, whole checks. */
function leavesOf(document: ProtocolDocument): Map<string, unknown> {
  const leaves = new Map<string, unknown>();
  const put = (at: string, value: unknown) => {
    if (value !== undefined) leaves.set(at, value);
  };
  for (const [name, value] of Object.entries(document)) {
    if (aside.has(name)) continue;
    if (name === 'setupFields') for (const field of document.setupFields) put(`setupFields.${field.id}`, field);
    else if (name === 'localRules') for (const [i, rule] of document.localRules.entries()) put(`localRules.${i}`, rule);
    else if (name === 'warmUp') {
      const { steps, confirm, efforts, rest } = document.warmUp;
      for (const [i, step] of steps.entries()) put(`warmUp.steps.${i}`, step);
      put('warmUp.confirm', confirm);
      for (const [i, effort] of efforts.entries()) put(`warmUp.efforts.${i}`, effort);
      put('warmUp.rest', rest);
    } else if (typeof value === 'object' && value !== null)
      for (const [inner, part] of Object.entries(value)) put(`${name}.${inner}`, part);
    else put(name, value);
  }
  return leaves;
}
