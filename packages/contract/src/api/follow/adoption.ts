import { z } from 'zod';
import { interval, typicalError } from '../athlete.ts';

/** A reliability study whose error a squad is judged by from then on. */
export const adoption = z.object({
  id: z.string(),
  test: z.string(),
  metric: z.string(),
  unit: z.string(),
  scale: z.enum(['log', 'unit']),
  /** Everybody where absent. */
  squad: z.string().optional(),
  error: typicalError,
  interval,
  /** Smallest worthwhile change, on the scale; frozen here. */
  worthwhile: z.number().optional(),
  people: z.number(),
  /** Sessions of each athlete in the study. */
  sessions: z.number(),
  at: z.string(),
  by: z.string(),
  reason: z.string(),
});

/** What came after an adoption, held against it. */
export const adoptionCheck = z.object({
  error: typicalError,
  people: z.number(),
  sessions: z.number(),
  /** Later error over the adopted one with its interval; p if both were the same. */
  ratio: interval.extend({ value: z.number() }),
  p: z.number(),
});

export const adoptionDraft = z.object({
  test: z.string(),
  metric: z.string(),
  squad: z.string().optional(),
  sessions: z.number().int().min(2).max(20),
  /** The error as it was shown; another one by now is refused. */
  shown: z.number(),
  reason: z.string().min(1).max(500),
  by: z.string().min(1).max(100),
});

export const adoptionEnd = z.object({ reason: z.string().min(1).max(500), by: z.string().min(1).max(100) });

export type Adoption = z.infer<typeof adoption>;
export type AdoptionCheck = z.infer<typeof adoptionCheck>;
