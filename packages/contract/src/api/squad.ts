import { z } from 'zod';
import { athleteChange, interval } from './athlete.ts';
import { choice } from './choice.ts';

/** One athlete of a squad in one metric. */
export const squadRow = z.object({
  person: z.object({ id: z.string(), name: z.string(), code: z.string() }),
  /** Sessions of the test, and when the newest was. */
  sessions: z.number(),
  last: z.string().optional(),
  /** The newest session that has a value; n trials behind it. */
  value: z.object({ value: z.number(), session: z.string(), n: z.number() }).optional(),
  /** Place in the squad: (value - mean) / SD with its interval; share below, %, from 20 athletes on. */
  z: interval.extend({ value: z.number() }).optional(),
  percentile: z.number().optional(),
  /** The newest session against the reference. */
  change: athleteChange.optional(),
  /** Day on which the next test is due, `YYYY-MM-DD`. */
  due: z.string().optional(),
  /** Error this athlete is judged by, on the scale. */
  error: z.number().optional(),
  /** The newest values, oldest first: what a small figure shows; only where they are asked for. */
  trail: z.array(z.object({ at: z.string(), value: z.number() })).optional(),
  sex: z.enum(['female', 'male', 'other']).optional(),
  /** Place in the boat or team, as it was last written down. */
  position: z.string().optional(),
  /** What stands in the way of a maximal effort today; only told to who may see clearances. */
  availability: z.enum(['maximal', 'submaximal', 'after-answers', 'nothing']).optional(),
});

/** A squad, or everybody, in one test and metric. */
export const squadTable = choice.extend({
  /** What everybody's newest session is held against. */
  against: athleteChange.shape.reference,
  rows: z.array(squadRow),
  /** Athletes who are called stronger or weaker, and how many such words chance alone would give. */
  words: z.number(),
  byChance: z.number(),
});

export const squadQuery = z.object({
  squad: z.string().optional(),
  test: z.string().optional(),
  metric: z.string().optional(),
  against: athleteChange.shape.reference.optional(),
  /** Whether the newest values of everybody come too: two thirds of all the rest again. */
  trails: z.enum(['true', 'false']).default('false'),
});

export type SquadTable = z.infer<typeof squadTable>;
export type SquadTableRow = z.infer<typeof squadRow>;
