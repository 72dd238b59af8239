import type { Verdict } from '@sthene/core';
import type { Decision } from './decision.ts';

type Of<K extends Decision['kind']> = Extract<Decision, { readonly kind: K }>;

/** What a trial's decisions come to. Every part is the decision itself, so that who, when and why travel with it. */
export interface EffectiveDecisions {
  /** Absent: the method's own onset. */
  readonly onsetByHand?: Of<'onset-by-hand'>;
  readonly excluded?: Of<'exclude'>;
  readonly overruled?: Of<'overrule-counts'>;
  /** In the order they were written. */
  readonly notes: readonly Of<'note'>[];
  /** What the next undo cancels: the latest decision still in force. */
  readonly undoable?: Decision;
  /** The undo that the next redo cancels; absent once something else was decided after it. */
  readonly redoable?: Of<'undo'>;
}

/**
 * Computes the state that a trial's decisions lead to.
 *
 * `decisions` are those of one trial in any order; they are read by `sequence`. A decision is in force unless a later one
 * in force cancels it, so an undo takes a decision out and a redo, which cancels the undo, puts it back at its old place.
 * Among those in force the later one wins: an onset by hand or automatic; excluded, overruled or restored.
 */
export function effectiveDecisions(decisions: readonly Decision[]): EffectiveDecisions {
  const ordered = [...decisions].sort((a, b) => a.sequence - b.sequence);
  const inForce = decisionsInForce(ordered);
  let onsetByHand: Of<'onset-by-hand'> | undefined;
  let standing: Of<'exclude'> | Of<'overrule-counts'> | undefined;
  let undoable: Decision | undefined;
  const notes: Of<'note'>[] = [];
  for (const decision of inForce) {
    if (decision.kind === 'undo' || decision.kind === 'redo') continue;
    undoable = decision;
    if (decision.kind === 'onset-by-hand') onsetByHand = decision;
    else if (decision.kind === 'onset-automatic') onsetByHand = undefined;
    else if (decision.kind === 'note') notes.push(decision);
    else if (decision.kind === 'restore') standing = undefined;
    else standing = decision;
  }
  const redoable = nextRedo(ordered, inForce);
  return {
    ...(onsetByHand === undefined ? {} : { onsetByHand }),
    ...(standing?.kind === 'exclude' ? { excluded: standing } : {}),
    ...(standing?.kind === 'overrule-counts' ? { overruled: standing } : {}),
    notes,
    ...(undoable === undefined ? {} : { undoable }),
    ...(redoable === undefined ? {} : { redoable }),
  };
}

/** Backwards, because only a later decision can cancel an earlier one. */
function decisionsInForce(ordered: readonly Decision[]): Decision[] {
  const cancelled = new Set<string>();
  const inForce: Decision[] = [];
  for (const decision of [...ordered].reverse()) {
    if (cancelled.has(decision.id)) continue;
    inForce.push(decision);
    if (decision.reverts !== undefined) cancelled.add(decision.reverts);
  }
  return inForce.reverse();
}

function nextRedo(ordered: readonly Decision[], inForce: readonly Decision[]): Of<'undo'> | undefined {
  let lastNew = 0;
  for (const decision of ordered) {
    if (decision.kind !== 'undo' && decision.kind !== 'redo') lastNew = decision.sequence;
  }
  const last = inForce.findLast((decision): decision is Of<'undo'> => decision.kind === 'undo');
  return last !== undefined && last.sequence > lastNew ? last : undefined;
}

/** How a trial stands: the verdict of its checks, unless a person decided otherwise or there is no result yet. */
export type Standing = Verdict | 'excluded' | 'not-analysed';

/** Standing of a trial from its newest verdict and its decisions. A trial without a result cannot be overruled to count. */
export function standingOf(verdict: Verdict | undefined, effective: EffectiveDecisions): Standing {
  if (effective.excluded !== undefined) return 'excluded';
  if (verdict === undefined) return 'not-analysed';
  return effective.overruled === undefined ? verdict : 'counts';
}
