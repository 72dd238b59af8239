import { z } from 'zod';

/** One part of a value's uncertainty: standard uncertainty in the value's unit, 0 where it is there but cancels. */
export const uncertaintyPart = z.object({
  id: z.string(),
  words: z.string(),
  standard: z.number(),
  note: z.string().optional(),
});

/** The uncertainty of a value (GUM), part by part. */
export const uncertainty = z.object({
  /** Of the known parts together, in `unit`. */
  standard: z.number(),
  /** `coverage` times that. */
  expanded: z.number(),
  coverage: z.number(),
  unit: z.string(),
  parts: z.array(uncertaintyPart),
  /** Parts that may matter and of which nothing is known: they are not in the number. */
  unknown: z.array(z.object({ id: z.string(), words: z.string() })),
  /** Beside the number, never in it. */
  onsetTiming: z.object({ words: z.string(), standard: z.number() }).optional(),
  /** The same for take-off and touchdown of a jump. */
  flightTiming: z.object({ words: z.string(), standard: z.number() }).optional(),
});

/** The uncertainty of every value of a trial, by metric; a value that has none has its reason. */
export const trialUncertainty = z.object({
  metrics: z.record(z.string(), z.union([uncertainty, z.object({ reason: z.string() })])),
  /** Whether a check of the rig before the trial is known. */
  rigChecked: z.boolean(),
  /** How body weight was found to be as sure as it is. */
  weight: z
    .object({ seconds: z.number(), of: z.enum(['weighing', 'standing-before', 'standing-after', 'standing-both']) })
    .optional(),
});

export type UncertaintyOfValue = z.infer<typeof uncertainty>;
export type TrialUncertainty = z.infer<typeof trialUncertainty>;
