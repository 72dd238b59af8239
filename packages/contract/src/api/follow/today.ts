import { z } from 'zod';
import { athleteChange, judgedMetric } from '../athlete.ts';
import { squad } from '../people.ts';

const somebody = z.object({ id: z.string(), name: z.string(), code: z.string() });

/** Something a coach should act on. */
export const todayRow = z.discriminatedUnion('kind', [
  /** The newest test has no effort that counts. */
  z.object({ kind: z.literal('invalid'), person: somebody, test: z.string(), session: z.string(), at: z.string() }),
  /** Stronger or weaker beyond noise since the session before. */
  z.object({
    kind: z.literal('changed'),
    person: somebody,
    test: z.string(),
    session: z.string(),
    at: z.string(),
    change: athleteChange,
  }),
  /** A second test would settle it. */
  z.object({
    kind: z.literal('retest'),
    person: somebody,
    test: z.string(),
    session: z.string(),
    at: z.string(),
    why: z.enum(['probably', 'one-effort', 'not-alike']),
    change: athleteChange.optional(),
  }),
  /** Not tested for the lab's number of weeks; all of them are one row. */
  z.object({ kind: z.literal('due'), people: z.array(somebody.extend({ last: z.string().optional() })) }),
]);

export const todayView = z.object({
  squads: z.array(squad),
  squad: z.string().optional(),
  /** The day looked at, and how it was chosen: today, as asked, or the example's newest test day. */
  on: z.string(),
  chosen: z.enum(['today', 'asked', 'newest']),
  metric: judgedMetric,
  scale: z.enum(['log', 'unit']),
  dueWeeks: z.number(),
  /** At most five, the most urgent first. */
  rows: z.array(todayRow),
  /** Rows there would be without the limit. */
  found: z.number(),
  /** Athletes with a change to judge, and words `stronger` and `weaker` that chance alone would give. */
  judged: z.number(),
  byChance: z.number(),
});

export const todayQuery = z.object({
  squad: z.string().optional(),
  on: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/)
    .optional(),
});

export type TodayView = z.infer<typeof todayView>;
export type TodayRow = z.infer<typeof todayRow>;
