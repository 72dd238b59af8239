import type {
  ChangeFacts,
  IntervalFacts,
  MethodFacts,
  MetricFacts,
  PersonFacts,
  ProtocolFacts,
  RigCheckFacts,
} from './common.ts';
import type { UncertaintyFacts } from './uncertainty.ts';

export interface AthleteSessionFacts {
  readonly id: string;
  readonly at: string;
  readonly value?: number | undefined;
  readonly unit?: string | undefined;
  readonly n: number;
  readonly maximal: number;
  readonly sd?: number | undefined;
  readonly familiarisation: boolean;
  readonly unlike: readonly string[];
}

interface ErrorFacts {
  readonly value: number;
  readonly df: number;
}

/** How the newest value came about. */
export interface MadeFacts {
  readonly methods: readonly MethodFacts[];
  /** Samples a second. */
  readonly sampleRates: readonly number[];
  /** One, and of a ratio one for each of its tests. */
  readonly protocols: readonly ProtocolFacts[];
  readonly rigChecks: readonly RigCheckFacts[];
}

/** One athlete, one test, one metric, as the station judged it. */
export interface AthleteInput {
  readonly person: PersonFacts;
  /** Id of the test. */
  readonly test: string;
  readonly metric: MetricFacts;
  /** Oldest first. */
  readonly sessions: readonly AthleteSessionFacts[];
  readonly scale: 'log' | 'unit';
  readonly noise: {
    readonly squad?:
      | {
          readonly error: ErrorFacts;
          readonly interval: IntervalFacts;
          readonly people: number;
          readonly sessions: number;
        }
      | undefined;
    readonly own?: ErrorFacts | undefined;
    readonly used?: ErrorFacts | undefined;
    readonly worthwhile?: number | undefined;
  };
  readonly best?: string | undefined;
  readonly changes: readonly ChangeFacts[];
  readonly reason?: string | undefined;
  /** What the newest session is held against on the page. */
  readonly against: ChangeFacts['reference'];
  readonly made: MadeFacts;
  /** Of the newest value; absent where its recordings cannot say. */
  readonly uncertainty?: UncertaintyFacts | undefined;
}
