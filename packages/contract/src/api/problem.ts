import { z } from 'zod';

/** Problem details (RFC 9457) with our permanent code and the next step. */
export const problem = z.object({
  type: z.string(),
  title: z.string(),
  status: z.number(),
  /** Permanent, kebab-case. */
  code: z.string(),
  /** What happened, in words. */
  detail: z.string(),
  /** What is safe and what to do next. */
  next: z.string(),
  instance: z.string().optional(),
});

export type Problem = z.infer<typeof problem>;
