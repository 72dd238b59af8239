import type { ChangeFacts, MetricFacts, PersonFacts, RigCheckFacts } from './common.ts';

export interface SquadRowFacts {
  readonly person: PersonFacts;
  readonly sessions: number;
  readonly last?: string | undefined;
  readonly value?: { readonly value: number; readonly n: number } | undefined;
  readonly z?: number | undefined;
  /** Against the session before. */
  readonly change?: ChangeFacts | undefined;
}

/** A squad, or everybody, in one test and metric. */
export interface SquadInput {
  /** Name of the squad; everybody where absent. */
  readonly squad?: string | undefined;
  readonly test: string;
  readonly metric: MetricFacts;
  readonly scale: 'log' | 'unit';
  /** In the order of names. */
  readonly rows: readonly SquadRowFacts[];
  /** The newest check of each rig before the newest session. */
  readonly rigChecks?: readonly RigCheckFacts[] | undefined;
}
