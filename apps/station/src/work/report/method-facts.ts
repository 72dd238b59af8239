import { methodReference } from '@sthene/core';
import type { MethodFacts } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { findMethod } from '../methods.ts';

/** A method by built-in id or hash, as reports name it. */
export async function methodFacts(lab: OpenLab, idOrHash?: string): Promise<MethodFacts> {
  const document = await findMethod(lab, idOrHash);
  return { ...methodReference(document), document };
}
