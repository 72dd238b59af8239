import type { MethodSummary } from '@sthene/contract';
import {
  type AnyMethod,
  isJumpMethod,
  isVariant,
  type JumpMethod,
  jumpMethodRegistry,
  type Method,
  methodReference,
  methodRegistry,
} from '@sthene/core';
import type { Repositories } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { stationActor } from '../labs/open-lab.ts';
import { ProblemError, problems } from '../server/problem-error.ts';

/** The method new results are made with, until a lab adopts another. */
export const defaultMethodId = 'standard';

/** Setting that holds the hash of the method the lab adopted last. */
export const methodSetting = 'analysis.method';

/** Hash of the lab's method: new results are made with it. It changes by adopting a recomputation alone. */
export async function currentMethodHash({ settings }: Pick<Repositories, 'settings'>): Promise<string> {
  const adopted = (await settings.get<string>(methodSetting))?.value;
  return adopted ?? methodReference(methodRegistry.get(defaultMethodId)?.method as Method).sha256;
}

/** Refuses to keep what was judged while somebody adopted another method. */
export async function stillCurrent(inside: Pick<Repositories, 'settings'>, sha256: string): Promise<void> {
  if ((await currentMethodHash(inside)) === sha256) return;
  throw new ProblemError(
    409,
    'method-adopted-meanwhile',
    'The lab adopted another method while this was analysed.',
    'Nothing was kept. Do it again; it is then judged with the new method.',
  );
}

/** Every method this lab knows: the built-in ones and those it made or its results were made with. */
export async function methodList(lab: OpenLab): Promise<MethodSummary[]> {
  const current = await currentMethodHash(lab.store);
  const builtIn = methodRegistry.all.map(({ id, method }) => summary(method, current, id));
  const hashes = new Set(builtIn.map((one) => one.sha256));
  const stored = await isometricMethods(lab);
  return [
    ...builtIn,
    ...stored.filter((one) => !hashes.has(methodReference(one).sha256)).map((one) => summary(one, current)),
  ];
}

/** The methods of isometric tests that this lab keeps. */
export const isometricMethods = async (lab: OpenLab): Promise<Method[]> =>
  (await lab.store.methods.list()).flatMap(({ document }) => (isJumpMethod(document) ? [] : [document]));

/** A method document by its hash, of either kind. */
export async function methodDocument(lab: OpenLab, sha256: string): Promise<Record<string, unknown>> {
  const jumps = await findJumpMethod(lab, sha256);
  return { ...(jumps ?? (await findMethod(lab, sha256))) };
}

/** A jump method by built-in id or hash; undefined where it is none. */
export async function findJumpMethod(lab: OpenLab, idOrHash: string): Promise<JumpMethod | undefined> {
  const builtIn = jumpMethodRegistry.all.find(
    ({ id, method }) => id === idOrHash || methodReference(method).sha256 === idOrHash,
  );
  if (builtIn !== undefined) return builtIn.method;
  const stored = isHash(idOrHash) ? (await lab.store.methods.get(idOrHash))?.document : undefined;
  return stored !== undefined && isJumpMethod(stored) ? stored : undefined;
}

/** Keeps a recipe of either kind, so that results may refer to it. */
export async function keepMethod(lab: OpenLab, method: AnyMethod): Promise<void> {
  await lab.store.methods.add(methodReference(method).sha256, method, stationActor);
}

/** A method by built-in id or hash; the lab's own where none is asked for. */
export async function findMethod(lab: OpenLab, asked?: string): Promise<Method> {
  const idOrHash = asked ?? (await currentMethodHash(lab.store));
  const method =
    methodRegistry.all.find(({ id, method: one }) => id === idOrHash || methodReference(one).sha256 === idOrHash)
      ?.method ?? (isHash(idOrHash) ? (await lab.store.methods.get(idOrHash))?.document : undefined);
  if (method === undefined || isJumpMethod(method)) throw problems.notFound('method');
  return method;
}

const isHash = (text: string): boolean => /^[\da-f]{64}$/.test(text);

/** A method by built-in id or hash, the lab's own unless asked, kept in the store so that results may refer to it. */
export async function useMethod(lab: OpenLab, idOrHash?: string): Promise<{ method: Method; sha256: string }> {
  const method = await findMethod(lab, idOrHash);
  const { sha256 } = methodReference(method);
  await lab.store.methods.add(sha256, method, stationActor);
  return { method, sha256 };
}

function summary(method: Method, current: string, id?: string): MethodSummary {
  const reference = methodReference(method);
  return {
    id: id ?? reference.sha256,
    ...reference,
    summary: method.summary,
    builtIn: id !== undefined,
    current: reference.sha256 === current,
    variant: isVariant(method),
  };
}
