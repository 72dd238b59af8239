import type { RigCheckDraft } from '@sthene/contract';
import {
  type CheckStep,
  isReadingOf,
  judgeCheck,
  type ReferenceMass,
  type RigCheckDocument,
  referenceForce,
} from '@sthene/core';
import type { KeptDraft } from './draft-file.ts';

/** The document of a draft; the schema at the door has the shape of the core's own type. */
export const documentOf = (draft: KeptDraft): RigCheckDocument => draft.document as unknown as RigCheckDocument;

/** A draft as screens show it: what is next, and what the readings say so far. */
export function draftView({ zeros: _, channelZeros: __, ...draft }: KeptDraft): RigCheckDraft {
  const document = documentOf({ ...draft, zeros: {} });
  const next = draft.steps.findIndex(
    (step) => !document.readings.some((one) => isReadingOf(one, step, loadOf(document, step).force)),
  );
  return {
    ...draft,
    next: next < 0 ? draft.steps.length : next,
    result: judgeCheck(document) as unknown as RigCheckDraft['result'],
  };
}

export const loadOf = ({ masses, gravity, airDensity }: RigCheckDocument, step: Pick<CheckStep, 'masses'>) =>
  referenceForce(
    step.masses.map((id) => masses.find((one) => one.id === id) as ReferenceMass),
    gravity,
    airDensity,
  );
