import { z } from 'zod';
import { verdict } from '../result/trial.ts';
import { comparedMetric, flippedTrial, place } from './recompute.ts';

/** A method document as somebody sends it; the station's schema of methods judges it. */
export const sentMethod = z.record(z.string(), z.unknown());

/** Which method, and on which trials it is tried. */
export const previewRequest = z.object({
  /** A method by id or hash, or a document that is not kept. */
  method: z.string().optional(),
  document: sentMethod.optional(),
  /** All trials of a session, of a person's newest sessions, or of the newest sessions of the lab. */
  session: z.string().optional(),
  person: z.string().optional(),
  test: z.string().optional(),
  sessions: z.number().int().min(1).max(20).default(5),
});

/** Most trials of a preview. */
export const mostPreviewed = 120;

export const previewedTrial = place.extend({
  effort: z.enum(['maximal', 'submaximal', 'familiarisation']),
  from: verdict.optional(),
  to: verdict.optional(),
  checks: flippedTrial.shape.checks,
  /** By metric id: the value in force and the one by the method; null where there is none. */
  values: z.record(z.string(), z.tuple([z.number().nullable(), z.number().nullable()])),
  /** Why it could not be judged. */
  problem: z.object({ code: z.string(), words: z.string() }).optional(),
});

/** What a method would make of some trials. Nothing is stored. */
export const preview = z.object({
  trials: z.array(previewedTrial),
  metrics: z.array(comparedMetric),
  /** More trials were asked for than a preview looks at. */
  cut: z.boolean(),
});

/** A table of values from elsewhere, and what its columns hold. */
export const nearestRequest = z.object({
  /** CSV with a line of headings. */
  text: z.string().min(1).max(2_000_000),
  /** Column that says which trial a line is: the trial's id, its file, or person and day with the order in the session. */
  columns: z.object({
    trial: z.string().optional(),
    file: z.string().optional(),
    label: z.string().optional(),
    person: z.string().optional(),
    date: z.string().optional(),
    order: z.string().optional(),
  }),
  values: z
    .array(z.object({ column: z.string(), metric: z.string(), unit: z.string().optional() }))
    .min(1)
    .max(20),
});

/** Most lines of such a table. */
export const mostLines = 150;

/** One way to analyse, and how far its values lie from the table's. */
export const nearness = z.object({
  kind: z.enum(['method', 'onset-rule']),
  id: z.string(),
  name: z.string(),
  /** Mean over the metrics of the mean absolute difference in per cent of the metric's mean: what the list is ordered by. */
  distance: z.number(),
  metrics: z.array(
    z.object({
      metric: z.string(),
      n: z.number(),
      meanAbsolute: z.number(),
      bias: z.number(),
      /** Limits of agreement, from three pairs on. */
      lower: z.number().optional(),
      upper: z.number().optional(),
    }),
  ),
});

export const nearestFound = z.object({
  /** Nearest first. */
  ranked: z.array(nearness),
  metrics: z.array(z.object({ id: z.string(), title: z.string(), unit: z.string() })),
  lines: z.number(),
  matched: z.number(),
  /** Lines without their trial or with something that is no number, the first of them. */
  unmatched: z.array(z.object({ line: z.number(), words: z.string() })),
});

export type PreviewRequest = z.infer<typeof previewRequest>;
export type PreviewedTrial = z.infer<typeof previewedTrial>;
export type Preview = z.infer<typeof preview>;
export type NearestRequest = z.infer<typeof nearestRequest>;
export type Nearness = z.infer<typeof nearness>;
export type NearestFound = z.infer<typeof nearestFound>;
