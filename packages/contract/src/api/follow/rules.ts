import { z } from 'zod';

/** How a lab follows its athletes. */
export const followRules = z.object({
  /** Month and day on which a season begins, `MM-DD`. */
  seasonStart: z.string().regex(/^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/),
  /** Weeks after which an athlete is due again. */
  dueWeeks: z.number().int().min(1).max(104),
  /** The one value a squad is judged by, by squad; '' is everybody and every squad that names none. */
  primary: z.record(z.string(), z.string()),
});

export const followRulesDraft = followRules.extend({ by: z.string().min(1).max(100) });

export type FollowRules = z.infer<typeof followRules>;
