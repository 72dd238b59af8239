import type { ReliabilityStudy } from '@sthene/core/stats';
import type { MethodFacts, MetricFacts, ProtocolFacts, RigCheckFacts } from './common.ts';

interface Counted {
  readonly n: number;
}

/** What became of every effort of the test, of the athletes of the study. */
export interface FlowFacts {
  readonly people: number;
  readonly sessions: number;
  /** Efforts made: all, and those that were maximal. */
  readonly efforts: number;
  readonly maximal: number;
  /** Maximal efforts by what the checks said. */
  readonly verdicts: {
    readonly counts: number;
    readonly lookAgain: number;
    readonly repeat: number;
    readonly notAnalysed: number;
  };
  /** By check: maximal efforts it rejected, and those it wanted looked at again. An effort may stand under several. */
  readonly checks: readonly { readonly id: string; readonly failed: number; readonly warned: number }[];
  /** Decisions that hold, by who made them. */
  readonly overruled: readonly ({ readonly by: string } & Counted)[];
  readonly excluded: readonly ({ readonly by: string } & Counted)[];
  readonly onsetByHand: readonly ({ readonly by: string } & Counted)[];
  /** Maximal efforts that count in the end. */
  readonly counting: number;
  /** Of these: in first sessions, in sessions older than the newest ones asked for, in the study. */
  readonly familiarisation: number;
  readonly older: number;
  readonly used: number;
  readonly usedSessions: number;
}

/** One field of the setup over the sessions of the study. */
export interface SetupSpread {
  readonly id: string;
  readonly title: string;
  readonly unit?: string | undefined;
  /** Sessions that tell the field. */
  readonly n: number;
  readonly range?: { readonly low: number; readonly high: number } | undefined;
  readonly choices?: readonly ({ readonly value: string } & Counted)[] | undefined;
}

/** How the values of the study were measured. */
export interface MeasuredFacts {
  readonly sampleRates: readonly ({ readonly value: number } & Counted)[];
  readonly methods: readonly (MethodFacts & Counted)[];
  readonly applications: readonly string[];
  readonly gravities: readonly number[];
  readonly weights: readonly ({ readonly from: string } & Counted)[];
  readonly rigs: readonly string[];
  /** The newest check of each rig before the last session. */
  readonly rigChecks?: readonly RigCheckFacts[] | undefined;
  readonly protocols: readonly (ProtocolFacts &
    Counted & { readonly cue?: string | undefined; readonly restSeconds?: number | undefined })[];
  /** Sessions without a protocol version. */
  readonly withoutProtocol: number;
  readonly setup: readonly SetupSpread[];
  /** First and last day of the sessions of the study. */
  readonly from?: string | undefined;
  readonly until?: string | undefined;
}

/** How good a test is in this lab, with everything a reviewer asks for. */
export interface ReliabilityInput {
  readonly squad?: string | undefined;
  readonly test: string;
  readonly metric: MetricFacts;
  readonly scale: 'log' | 'unit';
  /** Newest sessions of each athlete. */
  readonly sessions: number;
  readonly study?: ReliabilityStudy | undefined;
  /** Code of why there is no study. */
  readonly reason?: string | undefined;
  readonly flow: FlowFacts;
  readonly measured: MeasuredFacts;
}
