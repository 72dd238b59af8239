import { z } from 'zod';
import { athleteMetric, interval, typicalError } from '../athlete.ts';

const estimate = interval.extend({ value: z.number() });

/** How good the same pulls are under one onset rule. On the log scale errors are of 100 ln x. */
export const ruleReliability = z.object({
  rule: z.string(),
  title: z.string(),
  /** The rule of the lab's method. */
  current: z.boolean(),
  /** Athletes with every session. */
  people: z.number(),
  error: typicalError.optional(),
  interval: estimate.optional(),
  icc: estimate.optional(),
  /** Mean of the newest session. */
  mean: z.number().optional(),
  reason: z.string().optional(),
});

/** The reliability of one metric under every onset rule, from the same efforts; the most reliable first. */
export const reliabilityByRule = z.object({
  metric: athleteMetric,
  scale: z.enum(['log', 'unit']),
  sessions: z.number(),
  /** Efforts in the sessions looked at. */
  trials: z.number(),
  rows: z.array(ruleReliability),
  /** `not-of-onset`: the metric does not depend on where the pull begins. */
  reason: z.string().optional(),
});

export type ReliabilityByRule = z.infer<typeof reliabilityByRule>;
