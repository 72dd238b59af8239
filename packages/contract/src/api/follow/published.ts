import { z } from 'zod';
import { choice } from '../choice.ts';

const source = z.object({
  authors: z.string(),
  year: z.number().optional(),
  where: z.string(),
  doi: z.string().optional(),
});

/** Whom and what a published value is of. */
const publishedOf = z.object({
  id: z.string(),
  population: z.string(),
  sex: z.enum(['female', 'male', 'both', 'not-said']),
  age: z.string().optional(),
  level: z.string().optional(),
  /** Whether body weight is inside the force (`gross`) or taken off (`net`). */
  weight: z.enum(['gross', 'net', 'not-said', 'no-force']),
  remark: z.string(),
  source,
  /** `abstract`: the numbers were checked against the abstract or the open page of the paper, the protocol was not. */
  evidence: z.enum(['abstract']),
  n: z.number().optional(),
});

/** Mean and SD of a group of other people, in the unit of the metric. */
export const publishedGroup = publishedOf.extend({
  mean: z.number(),
  sd: z.number(),
  /** People of all groups of the source, where they are not known for each. */
  among: z.object({ people: z.number(), groups: z.number() }).optional(),
});

export const publishedRange = publishedOf.extend({
  low: z.number(),
  high: z.number(),
  of: z.enum(['study-means', 'people']),
});

/** Published values of other people beside the lab's own norms; nothing else of the lab depends on them. */
export const publishedView = choice.pick({ test: true, metric: true }).extend({
  groups: z.array(publishedGroup),
  /** For the size of a value alone. */
  ranges: z.array(publishedRange),
  /** Newest value of each athlete in the test and metric, to be held against a group. */
  people: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      sex: z.enum(['female', 'male', 'other']).optional(),
      value: z.number(),
      at: z.string(),
    }),
  ),
});

export const placeQuery = z.object({
  value: z.coerce.number().positive(),
  /** UCUM code of the value; that of the source where it is not said. */
  unit: z.string().optional(),
});

const score = z.object({ value: z.number(), low: z.number().optional(), high: z.number().optional() });

/** Place of one value in one published group; limits and error only where the number of people is known. */
export const publishedPlace = z.object({
  group: z.string(),
  value: z.number(),
  z: score,
  t: score,
  percentile: score,
  error: z.number().optional(),
  level: z.number().optional(),
});

export type PublishedView = z.infer<typeof publishedView>;
export type PublishedGroupView = z.infer<typeof publishedGroup>;
export type PublishedRangeView = z.infer<typeof publishedRange>;
export type PublishedPlace = z.infer<typeof publishedPlace>;
