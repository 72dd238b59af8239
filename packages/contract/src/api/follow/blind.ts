import { z } from 'zod';
import { interval } from '../athlete.ts';

const verdict = z.enum(['counts', 'look-again', 'repeat']);

/** A sample of trials that two people read without seeing what the method says. */
export const blindStudy = z.object({
  id: z.string(),
  title: z.string(),
  trials: z.number(),
  readers: z.array(z.object({ name: z.string(), read: z.number() })),
  createdAt: z.string(),
  closed: z.boolean(),
});

export const blindStudyDraft = z.object({
  title: z.string().min(1).max(200),
  test: z.string(),
  squad: z.string().optional(),
  trials: z.number().int().min(3).max(200),
  readers: z.array(z.string().min(1).max(100)).min(2).max(4),
  /** Chooses the sample; the same seed on the same trials gives the same ones. */
  seed: z.number().int().min(0).max(4294967295),
  by: z.string().min(1).max(100),
});

/** The next trial of a reader: its id names the curve and nothing else. */
export const blindTask = z.object({
  study: blindStudy,
  reader: z.number(),
  /** Absent when all are read. */
  trial: z.object({ id: z.string(), number: z.number(), of: z.number() }).optional(),
});

export const blindReadingDraft = z.object({
  reader: z.number().int().min(0).max(3),
  trial: z.string(),
  /** Sample index; absent: no onset can be seen. */
  onset: z.number().int().min(0).optional(),
  verdict,
});

/** Onsets of two against each other, in ms; second minus first. */
export const blindPair = z.object({
  first: z.string(),
  second: z.string(),
  /** Trials in which both placed an onset, and those in which only one did. */
  n: z.number(),
  oneOnly: z.number(),
  bias: interval.extend({ value: z.number() }).optional(),
  limits: z.object({ low: z.number(), high: z.number() }).optional(),
  /** The difference where it is the same in every trial, and so has no limits. */
  same: z.number().optional(),
  within10: z.number().optional(),
  /** Verdicts: trials both judged, share alike, and kappa beyond chance. */
  judged: z.number(),
  alike: z.number().optional(),
  kappa: z.object({ value: z.number(), standardError: z.number() }).optional(),
  reason: z.string().optional(),
});

/** Hidden until the study is closed. */
export const blindResults = z.object({
  study: blindStudy,
  pairs: z.array(blindPair),
  trials: z.array(
    z.object({
      id: z.string(),
      /** Of the recording, to say an onset in seconds. */
      sampleRate: z.number(),
      method: z.object({ onset: z.number().optional(), verdict }),
      readings: z.array(z.object({ onset: z.number().optional(), verdict }).nullable()),
    }),
  ),
});

export type BlindStudy = z.infer<typeof blindStudy>;
export type BlindStudyDraft = z.infer<typeof blindStudyDraft>;
export type BlindTask = z.infer<typeof blindTask>;
export type BlindReadingDraft = z.infer<typeof blindReadingDraft>;
export type BlindResults = z.infer<typeof blindResults>;
export type BlindPair = z.infer<typeof blindPair>;
