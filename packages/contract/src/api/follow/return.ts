import { z } from 'zod';
import { interval, typicalError } from '../athlete.ts';
import { person } from '../people.ts';
import { athleteNote } from './notes.ts';

/** One session of a limb after an injury. */
export const returnSession = z.object({
  id: z.string(),
  at: z.string(),
  value: z.number(),
  /** Per cent of the limb's own value before, with its interval. */
  recovered: interval.extend({ value: z.number() }).optional(),
  /** The other limb the same way, the same day: both lose strength. */
  other: interval.extend({ value: z.number() }).optional(),
  /** This limb as a share of the other, the same day, per cent; shown beside, never instead. */
  symmetry: z.number().optional(),
});

/** One test of the limb. */
export const returnSeries = z.object({
  test: z.string(),
  metric: z.object({ id: z.string(), title: z.string(), unit: z.string() }),
  /** A test of this leg alone, or this side of a test on both legs. */
  kind: z.enum(['single-leg', 'side']),
  /** Mean of the newest sessions before the injury. */
  before: z.object({ value: z.number(), sessions: z.array(z.string()), last: z.string() }).optional(),
  error: typicalError.optional(),
  sessions: z.array(returnSession),
  /** Why nothing is a share of anything: code of a reason. */
  reason: z.string().optional(),
});

export const returnView = z.object({
  person,
  injuries: z.array(athleteNote),
  /** The one shown. */
  injury: z.string().optional(),
  limb: z.enum(['left', 'right']).optional(),
  series: z.array(returnSeries),
});

export const returnQuery = z.object({
  injury: z.string().optional(),
  limb: z.enum(['left', 'right']).optional(),
  metric: z.string().optional(),
});

export type ReturnView = z.infer<typeof returnView>;
export type ReturnSeries = z.infer<typeof returnSeries>;
