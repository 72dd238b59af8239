import { z } from 'zod';
import { verdict } from '../result/trial.ts';
import { protocolReference } from './protocols.ts';

export const trialState = z.enum(['counts', 'look-again', 'repeat', 'excluded', 'overruled']);

/** One row of the session list. */
export const sessionRow = z.object({
  id: z.string(),
  person: z.object({ id: z.string(), name: z.string(), code: z.string() }),
  protocol: z.string(),
  startedAt: z.string(),
  /** In loaded jumps: what was carried, kg, where it was written down. */
  load: z.number().optional(),
  trials: z.number(),
  counting: z.number(),
  lookAgain: z.number(),
  repeat: z.number(),
  excluded: z.number(),
  /** Summary of peak force over counting maximal efforts, by the method's set rule; absent without any. */
  peakForce: z
    .object({
      value: z.number(),
      unit: z.string(),
      n: z.number(),
      rule: z.string(),
      /** Sample SD of the n values; on a session's own page, from two values on. */
      sd: z.number().optional(),
    })
    .optional(),
  /** In jump tests, in place of peak force: the metric by which jumps are ranked, mean of those that count. */
  headline: z
    .object({ metric: z.string(), value: z.number(), unit: z.string(), n: z.number(), sd: z.number().optional() })
    .optional(),
  /** Of a session of results only: by which method they were made, and from which file. */
  received: z
    .object({
      methodLabel: z.string(),
      /** False where only the day is known. */
      timeKnown: z.boolean(),
      import: z.string(),
      fileName: z.string(),
    })
    .optional(),
});

/** A value that was received without a curve. */
export const receivedValue = z.object({
  id: z.string(),
  row: z.number(),
  position: z.number().optional(),
  of: z.enum(['trial', 'mean', 'best', 'unknown']),
  metric: z.string(),
  value: z.number().optional(),
  unit: z.string(),
  reason: z.string().optional(),
  given: z.object({ value: z.string(), unit: z.string() }),
});

export const sessionQuery = z.object({
  text: z.string().optional(),
  person: z.string().optional(),
  protocol: z.string().optional(),
  offset: z.coerce.number().int().min(0).default(0),
  limit: z.coerce.number().int().min(1).max(500).default(100),
});

export const sessionPage = z.object({ total: z.number(), rows: z.array(sessionRow) });

/** A trial as a row of its session. */
export const trialRow = z.object({
  id: z.string(),
  order: z.number(),
  effort: z.enum(['maximal', 'submaximal', 'familiarisation']),
  verdict,
  state: trialState,
  peakForce: z.number().optional(),
  rateOfForceDevelopment200: z.number().optional(),
  /** In jump tests, in place of peak force: the metric by which jumps are ranked. */
  headline: z.object({ metric: z.string(), value: z.number(), unit: z.string() }).optional(),
  unit: z.string(),
  worst: z.string().optional(),
});

export const sessionView = sessionRow.extend({
  setup: z.record(z.string(), z.union([z.string(), z.number(), z.boolean()])),
  bodyWeight: z.object({ value: z.number(), from: z.string() }).optional(),
  gravity: z.number(),
  /** The protocol version it was run by, where one is known. */
  ranBy: protocolReference.optional(),
  notes: z.string(),
  /** Other sessions of this person on the same day, in their order. */
  sameDay: z.array(sessionRow.pick({ id: true, protocol: true, startedAt: true, load: true })),
  /** In a battery: the session with whose test the body weight was taken. */
  weighedIn: z.object({ id: z.string(), protocol: z.string() }).optional(),
  rows: z.array(trialRow),
  /** Values of a session of results only, by row of the table. */
  values: z.array(receivedValue),
});

export type ReceivedValueRow = z.infer<typeof receivedValue>;
export type SessionRow = z.infer<typeof sessionRow>;
export type SessionPage = z.infer<typeof sessionPage>;
export type SessionView = z.infer<typeof sessionView>;
export type TrialRow = z.infer<typeof trialRow>;
export type TrialState = z.infer<typeof trialState>;
