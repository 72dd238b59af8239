import { z } from 'zod';
import { typicalError } from '../athlete.ts';

/** Which side an athlete leans to from session to session; in per cent, positive is right. */
export const asymmetryView = z.object({
  metric: z.object({ id: z.string(), title: z.string() }),
  /** The two tests that are compared, where each side is tested alone: of every day on which both were done. */
  pair: z.object({ left: z.string(), right: z.string() }).optional(),
  /** Oldest first; those without the value are left out. */
  sessions: z.array(z.object({ id: z.string(), at: z.string(), value: z.number(), familiarisation: z.boolean() })),
  /** Error of the lab's test of it, and what one session must exceed. */
  error: typicalError.optional(),
  detectable: z.number().optional(),
  /** Said only beyond the noise. */
  leaning: z
    .object({ side: z.enum(['left', 'right']), rule: z.enum(['once-beyond-detectable', 'two-of-three']) })
    .optional(),
  /** Whether the same side leads from session to session, over everybody of the lab, beyond chance. */
  direction: z.object({ kappa: z.number(), standardError: z.number(), pairs: z.number() }).optional(),
});

export type AsymmetryView = z.infer<typeof asymmetryView>;
