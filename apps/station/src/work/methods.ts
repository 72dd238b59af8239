import type { MethodSummary } from '@sthene/contract';
import { type Method, methodReference, methodRegistry } from '@sthene/core';
import type { OpenLab } from '../labs/open-lab.ts';
import { stationActor } from '../labs/open-lab.ts';
import { problems } from '../server/problem-error.ts';

/** The method new results are made with, until a lab chooses its own. */
export const defaultMethodId = 'standard';

/** Every method this lab knows: the built-in ones and those its results were made with. */
export async function methodList(lab: OpenLab): Promise<MethodSummary[]> {
  const builtIn = methodRegistry.all.map(({ id, method }) => summary(method, id));
  const hashes = new Set(builtIn.map((one) => one.sha256));
  const stored = (await lab.store.methods.list()).filter((one) => !hashes.has(one.sha256));
  return [...builtIn, ...stored.map((one) => summary(one.document))];
}

/** A method document by its hash. */
export async function methodDocument(lab: OpenLab, sha256: string): Promise<Record<string, unknown>> {
  const builtIn = methodRegistry.all.find(({ method }) => methodReference(method).sha256 === sha256)?.method;
  const method = builtIn ?? (await lab.store.methods.get(sha256))?.document;
  if (method === undefined) throw problems.notFound('method');
  return { ...method };
}

/** A method by built-in id or hash. */
export async function findMethod(lab: OpenLab, idOrHash: string = defaultMethodId): Promise<Method> {
  const method = methodRegistry.get(idOrHash)?.method ?? (await lab.store.methods.get(idOrHash))?.document;
  if (method === undefined) throw problems.notFound('method');
  return method;
}

/** A method by built-in id or hash, kept in the store so that results may refer to it. */
export async function useMethod(
  lab: OpenLab,
  idOrHash: string = defaultMethodId,
): Promise<{ method: Method; sha256: string }> {
  const method = await findMethod(lab, idOrHash);
  const { sha256 } = methodReference(method);
  await lab.store.methods.add(sha256, method, stationActor);
  return { method, sha256 };
}

function summary(method: Method, id?: string): MethodSummary {
  const reference = methodReference(method);
  return {
    id: id ?? reference.sha256,
    ...reference,
    summary: method.summary,
    builtIn: id !== undefined,
    current: id === defaultMethodId,
  };
}
