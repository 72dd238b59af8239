import { z } from 'zod';
import { typicalError } from '../athlete.ts';
import { choice } from '../choice.ts';

/** What a squad's test can confirm before anybody pulls. On the log scale everything is of 100 ln x. */
export const beforeView = choice.extend({
  /** Mean of the newest values, to say a share in the unit. */
  typical: z.number().optional(),
  noise: z
    .object({
      error: typicalError,
      /** SD that no number of trials takes away, and SD between trials of a session. */
      between: z.number(),
      within: typicalError,
      /** Trials a session had, as their harmonic mean. */
      trials: z.number(),
      worthwhile: z.number().optional(),
      people: z.number(),
      adopted: z.boolean(),
    })
    .optional(),
  /** Newest rig check; there is none yet. */
  rigCheck: z.object({ at: z.string() }).optional(),
  /** Smallest true gain that is called stronger four times in five. */
  plans: z.array(z.object({ trials: z.number(), sessions: z.number(), error: z.number(), confirmable: z.number() })),
  /** Trials of the protocol as it stands. */
  usual: z.number(),
  reason: z.string().optional(),
});

export type BeforeView = z.infer<typeof beforeView>;
