import { methodRegistry } from '../built-in/entries.ts';
import { methodReference } from '../hash.ts';
import type { Method } from '../method.ts';
import { type MethodOutcome, type MethodProblem, validateMethod } from '../validate.ts';
import { methodChanges } from './differences.ts';

/** What a person decides of a method; the rest follows from where it stands. */
export type MethodDraft = Omit<Method, 'schema' | 'version' | 'derivedFrom'>;

/**
 * The method after another one, which stays as it is: under the same name the next version, under a new name the first one. It says
 * which method it was made from and what was changed.
 *
 * @param known every method there is, so that a version number is not given twice
 * @returns the method, or what is wrong with the draft: a name of this program or of a variant is `method-name-reserved`, a draft that
 *   judges every trial as before is `method-unchanged`
 */
export function succeedMethod(before: Method, draft: MethodDraft, known: readonly Method[]): MethodOutcome {
  const { schema: _, version: __, derivedFrom: ___, ...fields } = draft as Method;
  const name = typeof fields.name === 'string' ? fields.name.trim() : fields.name;
  const checked = validateMethod({ schema: 'sthene.method/1', version: 1, ...fields, name });
  if (!checked.ok) return checked;
  const { sha256, name: fromName, version: fromVersion } = methodReference(before);
  if (methodRegistry.all.some(({ method }) => method.name === name) || variantName.test(name))
    return refused({
      code: 'method-name-reserved',
      at: 'name',
      expected: 'a name of your own without ", with "',
      found: name,
    });
  const changes = methodChanges(before, checked.method);
  if (Object.keys(changes).length === 0)
    return refused({
      code: 'method-unchanged',
      at: '',
      expected: 'a change in what is computed',
      found: 'the same as before',
    });
  const version = 1 + Math.max(0, ...known.filter((one) => one.name === name).map((one) => one.version));
  const derivedFrom = { name: fromName, version: fromVersion, sha256, changes };
  return validateMethod({ ...checked.method, version, derivedFrom });
}

const refused = (problem: MethodProblem): MethodOutcome => ({ ok: false, problems: [problem] });

const variantName = /, with /u;

/** Whether a method was made from another one for a test, a protocol or an option, as `deriveMethod` names them. */
export const isVariant = ({ name, derivedFrom }: Method): boolean =>
  derivedFrom !== undefined && name.startsWith(`${derivedFrom.name}, with `);
