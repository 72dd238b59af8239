import { z } from 'zod';

/** Mean force of one session's maximal efforts that count, aligned at their onsets. */
export const sessionCurve = z.object({
  session: z.string(),
  at: z.string(),
  /** Efforts in the mean, and those left out: another unit or no onset. */
  n: z.number(),
  left: z.number(),
  /** Position in `time` of the first value. */
  start: z.number(),
  /** Force at each time; sample SD from two efforts on. */
  mean: z.array(z.number()),
  sd: z.array(z.number()).optional(),
});

export const curvesView = z.object({
  unit: z.string(),
  /** Seconds from the onset. */
  time: z.array(z.number()),
  curves: z.array(sessionCurve),
});

export const curvesQuery = z.object({
  /** Ids of sessions, with commas; up to six. */
  sessions: z.string().max(600),
});

export type CurvesView = z.infer<typeof curvesView>;
export type SessionCurve = z.infer<typeof sessionCurve>;
