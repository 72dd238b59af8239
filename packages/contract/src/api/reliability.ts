import { z } from 'zod';
import { interval, typicalError } from './athlete.ts';
import { choice } from './choice.ts';
import { adoption, adoptionCheck } from './follow/adoption.ts';
import { squadQuery } from './squad.ts';

const lacking = z.object({ ok: z.literal(false), reason: z.string() });
const estimate = interval.extend({ value: z.number() });
const orNone = <T extends z.ZodType>(value: T) => z.union([z.object({ ok: z.literal(true), value }), lacking]);
const square = z.object({ sum: z.number(), df: z.number(), mean: z.number() });
const fTest = z.object({ f: z.number(), df: z.array(z.number()), p: z.number() });
const correlation = orNone(estimate);

/** What docs/reference/statistics.md says of reliability; on the log scale errors, changes and correlations are of 100 ln x. */
export const reliabilityStudy = z.object({
  scale: z.enum(['log', 'unit']),
  level: z.number(),
  people: z.number(),
  complete: z.number(),
  leftOut: z.array(z.number()),
  values: z.number(),
  occasions: z.array(z.object({ n: z.number(), mean: z.number().optional(), sd: z.number().optional() })),
  squares: z.object({
    between: square,
    occasion: square,
    within: square,
    error: square,
    oneWay: fTest,
    twoWay: fTest,
    shift: fTest,
  }),
  correlations: z.object({
    '1,1': correlation,
    '2,1': correlation,
    '3,1': correlation,
    '1,k': correlation,
    '2,k': correlation,
    '3,k': correlation,
  }),
  error: typicalError.extend({ interval: estimate }),
  cv: estimate.optional(),
  detectable: z.object({ '95': z.number(), '90': z.number() }),
  worthwhile: orNone(z.number()),
  usefulness: z.enum(['finer', 'about-equal', 'coarser']).optional(),
  steps: z.array(
    z.object({
      from: z.number(),
      people: z.number(),
      change: estimate.optional(),
      error: typicalError.optional(),
      shifted: z.boolean(),
    }),
  ),
  familiarisation: z.number().optional(),
  all: orNone(z.object({ error: typicalError, interval: estimate, icc: z.number() })).optional(),
  small: z.boolean(),
});

/** The reliability of a test of the lab, from the newest sessions of each athlete. */
export const reliabilityView = choice.extend({
  /** Sessions of each athlete, the newest on the right; null where there are fewer. */
  sessions: z.number(),
  people: z.array(
    z.object({ id: z.string(), name: z.string(), code: z.string(), values: z.array(z.number().nullable()) }),
  ),
  study: reliabilityStudy.optional(),
  /** The study this squad is judged by, and how later sessions agree with it. */
  adopted: adoption.optional(),
  later: adoptionCheck.optional(),
  /** Why there is no study: code of a reason. */
  reason: z.string().optional(),
});

export const reliabilityQuery = squadQuery.extend({ sessions: z.coerce.number().int().min(2).max(20).default(2) });

export type ReliabilityView = z.infer<typeof reliabilityView>;
export type ReliabilityFound = z.infer<typeof reliabilityStudy>;
