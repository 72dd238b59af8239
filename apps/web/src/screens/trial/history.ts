import type { Decision } from '@sthene/contract';

/** Ids of decisions that are taken back as things stand: a taking back may itself have been taken back. */
export function revertedNow(decisions: readonly Pick<Decision, 'id' | 'reverts'>[]): Set<string> {
  const reverted = new Set<string>();
  for (const one of [...decisions].reverse())
    if (one.reverts !== undefined && !reverted.has(one.id)) reverted.add(one.reverts);
  return reverted;
}

/** What an undo or redo is about: an undo names the decision, a redo names the undo. */
export function subjectOf(decision: Decision, all: readonly Decision[]): Decision {
  const next = decision.reverts === undefined ? undefined : all.find((one) => one.id === decision.reverts);
  return next === undefined || next === decision ? decision : subjectOf(next, all);
}
