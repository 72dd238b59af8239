import { z } from 'zod';
import { choice } from '../choice.ts';

/** The lab's own values of one group. */
export const normGroup = z.object({
  sex: z.enum(['female', 'male', 'other']).optional(),
  band: z.enum(['under-16', '16-17', '18-34', '35-and-over', 'unknown']),
  n: z.number(),
  mean: z.number(),
  sd: z.number().optional(),
  /** 10, 25, 50, 75, 90 %; from 20 athletes on. */
  percentiles: z.array(z.number()).optional(),
});

export const normsView = choice.pick({ tests: true, test: true, metrics: true, metric: true }).extend({
  /** Newest value of each athlete, by sex and age on that day. */
  groups: z.array(normGroup),
});

export type NormsView = z.infer<typeof normsView>;
