import { z } from 'zod';
import { person } from './people.ts';

/** An interval of a value with the probability it is meant for. */
export const interval = z.object({ low: z.number(), high: z.number(), level: z.number() });

/** A typical error: SD between sessions with its degrees of freedom. On the log scale it is of 100 ln x, nearly per cent. */
export const typicalError = z.object({ value: z.number(), df: z.number() });

export const changeWord = z.enum([
  'stronger',
  'probably stronger',
  'weaker',
  'probably weaker',
  'unchanged',
  "inside the test's noise",
  'cannot tell yet',
]);

/** One session as a point of a metric over time. */
export const athleteSession = z.object({
  id: z.string(),
  at: z.string(),
  /** Mean of the trials that count; absent where none has the metric. */
  value: z.number().optional(),
  unit: z.string().optional(),
  /** Trials behind the value, and all maximal ones. */
  n: z.number(),
  maximal: z.number(),
  /** Sample SD of the n values, from two on. */
  sd: z.number().optional(),
  /** The first session of the test: shown, but neither noise nor reference. */
  familiarisation: z.boolean(),
  /** Setup fields, method or gravity that differ from the newest session, by their titles. */
  unlike: z.array(z.string()),
  /** Setup as it was written down, by field id. */
  setup: z.record(z.string(), z.union([z.string(), z.number(), z.boolean()])).optional(),
  /** Name and version of the method behind the value, where it differs from that of the session before. */
  newMethod: z.string().optional(),
});

/** The newest session against one reference. Differences in the unit and, on the log scale, in per cent. */
export const athleteChange = z.object({
  reference: z.enum(['last', 'first', 'mean-of-three', 'season-start']),
  sessions: z.array(z.string()),
  /** In the unit. */
  value: z.number(),
  difference: z.number(),
  percent: z.number().optional(),
  /** Noise band: where the newest value is expected with 95 % when nothing has changed, in the unit. */
  band: interval,
  /** Of the difference, in the unit; 50, 90 and 95 %. */
  intervals: z.array(interval),
  /** Probabilities under a flat prior: beyond the worthwhile change, up or down, and within it. */
  more: z.number(),
  less: z.number(),
  within: z.number(),
  /** Smallest difference beyond the error of two tests with 95 %, in the unit. */
  detectable: z.number(),
  /**
   * What the sessions owe to different rigs, or to different checks of one, as a standard uncertainty in the unit: in the intervals beside
   * the test's noise. Without a size where a check is missing; absent on one rig under one check.
   */
  rigs: z.object({ standard: z.number().optional() }).optional(),
  word: changeWord,
  /** The word where nothing else differed. */
  alike: changeWord,
  unlike: z.array(z.string()),
  /** Probability that somebody who did not change at all is called `stronger` or `weaker`. */
  byChance: z.number(),
  /** Smallest true gain that is called stronger four times in five, in the unit, and sessions a side that would halve it. */
  confirmable: z.number(),
  halve: z.number().optional(),
});

/**
 * Values of others: one line for each method label and for what they are of. They stand beside the athlete's own values and enter nothing.
 */
export const receivedLine = z.object({
  /** A, B, C ... in the order of the first value. */
  letter: z.string(),
  label: z.string(),
  /** False where nobody knows by which method the values were made. */
  known: z.boolean(),
  /** `mean`: of the trials of a session, or given as such. */
  of: z.enum(['mean', 'best', 'unknown']),
  unit: z.string(),
  /** Oldest first. */
  points: z.array(
    z.object({
      session: z.string(),
      at: z.string(),
      timeKnown: z.boolean(),
      value: z.number(),
      n: z.number(),
      fileName: z.string(),
    }),
  ),
});

/** A metric as far as a word on its change needs it. */
export const judgedMetric = z.object({
  id: z.string(),
  title: z.string(),
  unit: z.string(),
  better: z.enum(['higher', 'lower', 'neither']),
});

/** The same with what a page says of how it is made. */
export const athleteMetric = judgedMetric.extend({
  formula: z.string(),
  source: z.string(),
  dependsOnOnset: z.boolean(),
});

/** One athlete, one test, one metric. */
export const athleteView = z.object({
  person,
  /** Tests the athlete has sessions of, most first; `test` is the one shown. */
  tests: z.array(z.object({ id: z.string(), sessions: z.number() })),
  test: z.string().optional(),
  metrics: z.array(z.object({ id: z.string(), title: z.string() })),
  metric: athleteMetric,
  /** Oldest first. */
  sessions: z.array(athleteSession),
  received: z.array(receivedLine),
  /** `log`: errors are of 100 ln x and shown in per cent. */
  scale: z.enum(['log', 'unit']),
  noise: z.object({
    squad: z
      .object({
        error: typicalError,
        interval,
        people: z.number(),
        sessions: z.number(),
        trends: z.enum(['own', 'common']),
        /** When it comes from an adopted study: since when and by whom. */
        adopted: z.object({ at: z.string(), by: z.string() }).optional(),
      })
      .optional(),
    own: typicalError.optional(),
    used: typicalError.optional(),
    /** Smallest worthwhile change, on the scale. */
    worthwhile: z.number().optional(),
  }),
  /** Session with the highest value (lowest where less is better). */
  best: z.string().optional(),
  changes: z.array(athleteChange),
  /** Targets of this value that are in force. */
  targets: z.array(z.object({ value: z.number(), until: z.string().optional(), text: z.string() })),
  /** Fields of the test's setup, to read the sessions' by. */
  setupFields: z.array(z.object({ id: z.string(), title: z.string(), unit: z.string().optional() })),
  /** Why there is no change to speak of: code of a reason. */
  reason: z.string().optional(),
});

export const athleteQuery = z.object({ test: z.string().optional(), metric: z.string().optional() });

export type AthleteView = z.infer<typeof athleteView>;
export type ReceivedLine = z.infer<typeof receivedLine>;
export type AthleteSession = z.infer<typeof athleteSession>;
export type AthleteChange = z.infer<typeof athleteChange>;
export type ChangeWordCode = z.infer<typeof changeWord>;
