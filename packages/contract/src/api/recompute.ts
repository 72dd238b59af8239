import { z } from 'zod';
import { methodReference, verdict } from '../result/trial.ts';
import { agreementFound } from './agreement.ts';
import { judgedMetric } from './athlete.ts';

export const recomputationState = z.enum(['running', 'paused', 'finished', 'adopted', 'discarded', 'failed']);

/** A run over the archive with another method. */
export const recomputation = z.object({
  id: z.string(),
  method: methodReference,
  state: recomputationState,
  startedAt: z.string(),
  startedBy: z.string(),
  /** When, by whom and why it was adopted or discarded. */
  ended: z.object({ at: z.string(), by: z.string(), reason: z.string() }).optional(),
  /** Why it cannot go on. */
  words: z.string(),
  /** Trials of the lab that have a curve; judged; could not be judged. */
  trials: z.number(),
  done: z.number(),
  failed: z.number(),
  /** Trials that were added or changed since it finished; at most `mostBehind`. */
  behind: z.number().optional(),
  /** This station works on it right now. */
  here: z.boolean(),
  /** It waits because plates are being measured. */
  waiting: z.boolean(),
  /** Trials a second, and seconds still to go at that pace. */
  rate: z.number().optional(),
  remaining: z.number().optional(),
});

/** More than this is told as this. */
export const mostBehind = 1000;

/** Where a trial is found. */
export const place = z.object({
  trial: z.string(),
  session: z.string(),
  person: z.object({ id: z.string(), name: z.string(), code: z.string() }),
  order: z.number(),
  test: z.string(),
  at: z.string(),
});

export const failedTrial = place.extend({ code: z.string(), words: z.string() });

export const failedTrials = z.object({ rows: z.array(failedTrial), next: z.string().optional() });

/** Where a verdict changes, and the checks whose answer differs. */
export const flippedTrial = place.extend({
  from: verdict,
  to: verdict,
  /** A person decided about this trial, so that it stands the same under both methods. */
  decided: z.boolean(),
  checks: z.array(
    z.object({
      id: z.string(),
      title: z.string(),
      from: z.string(),
      to: z.string(),
    }),
  ),
});

export const flips = z.object({
  counted: z.array(z.object({ from: verdict, to: verdict, trials: z.number() })),
  rows: z.array(flippedTrial),
  next: z.string().optional(),
});

/** A page that was handed out and would read differently. */
export const handedOutPage = z.object({
  id: z.string(),
  at: z.string(),
  kind: z.enum(['athlete', 'squad']),
  test: z.string(),
  session: z.string(),
  person: z.object({ id: z.string(), name: z.string(), code: z.string() }),
  metric: judgedMetric,
  scale: z.enum(['log', 'unit']),
  was: z.object({ value: z.number(), word: z.string().optional() }),
  now: z.object({ value: z.number().optional(), word: z.string().optional() }),
  reads: z.enum(['another-word', 'another-number', 'alike']),
});

export const handedOutOfRun = z.object({
  pages: z.number(),
  otherWord: z.number(),
  otherNumber: z.number(),
  /** At most 200, those with another word first. */
  rows: z.array(handedOutPage),
});

export type HandedOutOfRun = z.infer<typeof handedOutOfRun>;

/** One metric under both methods, second less first. On the log scale differences are of 100 ln x, about per cent. */
export const comparedMetric = z.object({
  id: z.string(),
  title: z.string(),
  unit: z.string(),
  scale: z.enum(['log', 'unit']),
  n: z.number(),
  /** Values that only the one method could give. */
  onlyFirst: z.number(),
  onlySecond: z.number(),
  means: z.tuple([z.number(), z.number()]).optional(),
  /** Every value is the same to the last digit that is shown. */
  same: z.boolean(),
  study: agreementFound.optional(),
  /** Why there is no study: code of a reason. */
  reason: z.string().optional(),
});

export const comparison = z.object({
  metrics: z.array(comparedMetric),
  /** False while metrics are still being gone through; ask again. */
  complete: z.boolean(),
});

/** Pairs behind one metric, for drawing and for reading one by one. */
export const comparedPairs = z.object({
  metric: comparedMetric,
  level: z.enum(['trial', 'session']),
  pairs: z.array(
    z.object({
      trial: z.string().optional(),
      session: z.string(),
      person: z.string(),
      at: z.string(),
      order: z.number().optional(),
      first: z.number(),
      second: z.number(),
    }),
  ),
  /** How many there are in all; the list holds at most `mostPairs`, spread evenly. */
  total: z.number(),
});

export const mostPairs = 2000;

export type Recomputation = z.infer<typeof recomputation>;
export type FailedTrials = z.infer<typeof failedTrials>;
export type Flips = z.infer<typeof flips>;
export type FlippedTrial = z.infer<typeof flippedTrial>;
export type ComparedMetric = z.infer<typeof comparedMetric>;
export type Comparison = z.infer<typeof comparison>;
export type ComparedPairs = z.infer<typeof comparedPairs>;
