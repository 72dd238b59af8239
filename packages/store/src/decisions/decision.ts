import type { UtcInstant } from '@sthene/core';

/**
 * What a person may decide about a trial, with what each decision carries. Raw data and earlier decisions stay; the state
 * of a trial is what `effectiveDecisions` makes of the list.
 */
export type DecisionContent =
  /** The pull begins here; `index` is a sample index of the recording. */
  | { readonly kind: 'onset-by-hand'; readonly payload: { readonly index: number } }
  /** Back to the method's own onset. */
  | { readonly kind: 'onset-automatic'; readonly payload: EmptyPayload }
  /** Left out of every summary, shown crossed out. `category` is a word of a fixed list. */
  | { readonly kind: 'exclude'; readonly payload: { readonly category: string } }
  /** Neither excluded nor overruled: the verdict of the checks stands. */
  | { readonly kind: 'restore'; readonly payload: EmptyPayload }
  /** Counts although a check said otherwise. */
  | { readonly kind: 'overrule-counts'; readonly payload: EmptyPayload }
  | { readonly kind: 'note'; readonly payload: { readonly text: string } }
  /** Cancels the decision `reverts` names, which is none of undo and redo. */
  | { readonly kind: 'undo'; readonly payload: EmptyPayload }
  /** Cancels the undo that `reverts` names. */
  | { readonly kind: 'redo'; readonly payload: EmptyPayload };

export type EmptyPayload = Readonly<Record<string, never>>;

export type DecisionKind = DecisionContent['kind'];

export const decisionKinds = [
  'onset-by-hand',
  'onset-automatic',
  'exclude',
  'restore',
  'overrule-counts',
  'note',
  'undo',
  'redo',
] as const satisfies readonly DecisionKind[];

/** A decision as it was made. */
export type Decision = DecisionContent & {
  readonly id: string;
  /** Order in which decisions were made. */
  readonly sequence: number;
  readonly trial: string;
  readonly reason: string;
  /** The decision this one cancels; with undo and redo only. */
  readonly reverts?: string;
  readonly by: string;
  readonly role?: string;
  readonly station: string;
  readonly at: UtcInstant;
};

/** A decision to make, apart from undo and redo. */
export type NewDecision = Exclude<DecisionContent, { readonly kind: 'undo' | 'redo' }> & {
  readonly trial: string;
  readonly reason: string;
};
