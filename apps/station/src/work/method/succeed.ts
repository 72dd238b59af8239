import type { MethodSummary } from '@sthene/contract';
import { type MethodDraft, type MethodProblem, methodReference, methodRegistry, succeedMethod } from '@sthene/core';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError, problems } from '../../server/problem-error.ts';
import { findMethod, isometricMethods, methodList } from '../methods.ts';

/** Makes a method from the one named `after`, which stays as it is; nothing is judged with it until it is adopted. */
export async function makeSuccessor(
  lab: OpenLab,
  { after, document, by }: { readonly after: string; readonly document: Record<string, unknown>; readonly by: string },
): Promise<MethodSummary> {
  const before = await findMethod(lab, after);
  const known = [...methodRegistry.all.map(({ method }) => method), ...(await isometricMethods(lab))];
  const outcome = succeedMethod(before, document as unknown as MethodDraft, known);
  if (!outcome.ok) throw refused(outcome.problems);
  const { sha256 } = methodReference(outcome.method);
  await lab.store.methods.add(sha256, outcome.method, await lab.actor(by));
  const made = (await methodList(lab)).find((one) => one.sha256 === sha256);
  if (made === undefined) throw problems.notFound('method');
  return made;
}

/** A method document that is no method, or a successor that is none, with everything that is wrong. */
export function refused(found: readonly MethodProblem[]): ProblemError {
  const first = found[0];
  if (first?.code === 'method-unchanged')
    return new ProblemError(
      422,
      'method-unchanged',
      'This method would judge every trial exactly as the one it is made from.',
      'Nothing was kept. Change what is computed; name and words alone make no new method.',
    );
  if (first?.code === 'method-name-reserved')
    return new ProblemError(
      422,
      'method-name-reserved',
      `The name ${first.found} belongs to this program, or reads like a variant of another method.`,
      'Give the method a name of your own.',
    );
  const said = found.map(
    ({ at, expected, found: came }) => `${at || 'document'}: expected ${expected}, found ${came}.`,
  );
  return new ProblemError(
    422,
    'method-invalid',
    `This is no method that can be used. ${said.slice(0, 8).join(' ')}`,
    'Nothing was kept. Correct what is named and send it again.',
  );
}
