import { z } from 'zod';

const pair = z.tuple([z.number(), z.number()]);

/** A path over the floor in one part of a trial, thinned to what a figure can show; mm. */
const pressurePart = z.object({
  of: z.enum(['still', 'effort']),
  /** null where nothing stands there or samples are missing. */
  points: z.array(pair.nullable()),
  figures: z.object({ samples: z.number(), mean: pair, range: pair }),
});

const axis = z.enum(['x', 'y', 'z']);

/** Where the force acts in a trial; nothing where its recording does not tell. */
export const trialPressure = z.object({
  /** `laboratory` where it is known how all plates lie on the floor; else each in its own axes. */
  axes: z.enum(['laboratory', 'plate']),
  /** What the first and the second number of every pair lie along. */
  names: z.tuple([axis, axis]),
  plates: z.array(
    z.object({
      name: z.string(),
      outline: z.array(pair).optional(),
      parts: z.array(pressurePart),
      /** Whether, seen from above with the first axis to the right, the second runs toward the eye. */
      mirrored: z.boolean(),
    }),
  ),
  /** All plates as one; in the laboratory only. */
  combined: z.array(pressurePart).optional(),
});

export type TrialPressure = z.infer<typeof trialPressure>;
export type PressurePart = z.infer<typeof pressurePart>;
