import { methodReference } from '@sthene/core';
import type { MethodFacts } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { findJumpMethod, findMethod } from '../methods.ts';

/** A method by built-in id or hash, as reports name it. */
export async function methodFacts(lab: OpenLab, idOrHash?: string): Promise<MethodFacts> {
  const jumps = idOrHash === undefined ? undefined : await findJumpMethod(lab, idOrHash);
  const document = jumps ?? (await findMethod(lab, idOrHash));
  return { ...methodReference(document), document };
}
