import { z } from 'zod';
import { cueWay } from '../live/to-station.ts';
import { methodReference, sampleSpan, trialResult } from '../result/trial.ts';
import { sessionView, trialRow, trialState } from './sessions.ts';

/** What a person may decide about a trial. `restore` lifts an exclusion and an overruling alike. */
export const decisionKind = z.enum([
  'onset-by-hand',
  'onset-automatic',
  'exclude',
  'restore',
  'overrule-counts',
  'note',
]);

/** A person's act on a trial. Append-only; taking one back is another decision, of kind `undo`. */
export const decision = z.object({
  id: z.string(),
  kind: z.enum([...decisionKind.options, 'undo', 'redo']),
  /** Sample index of a hand-placed onset. */
  index: z.number().optional(),
  reason: z.string(),
  by: z.string(),
  at: z.string(),
  /** Id of the decision this one takes back. */
  reverts: z.string().optional(),
});

export const decisionDraft = z.object({
  kind: decisionKind,
  index: z.number().int().min(0).optional(),
  /** Of an exclusion: a word of the list the screen offers. */
  category: z.string().max(60).optional(),
  reason: z.string().min(1).max(500),
  by: z.string().min(1).max(100),
});

/** Who gave the cue of a live trial, and how well its time is known. Times in ms. */
export const cueHeard = z.object({
  /** Name of the device that gave it; absent: the station itself. */
  device: z.string().optional(),
  way: z.enum([...cueWay.options, 'station']),
  /** From the station asking for it to its being heard or seen. */
  after: z.number(),
  /** Delay of the device's output, contained in `after`. */
  delay: z.number().optional(),
  delayFrom: z.enum(['measured', 'stated', 'unknown']),
  /** The clocks of station and device agree to this. */
  clockWithin: z.number().optional(),
});

/** Everything the Trial screen needs but the curve. */
export const trialView = z.object({
  id: z.string(),
  session: z.object({
    id: z.string(),
    startedAt: z.string(),
    protocol: z.string(),
    setup: z.record(z.string(), z.union([z.string(), z.number(), z.boolean()])),
    ranBy: sessionView.shape.ranBy,
  }),
  person: z.object({ id: z.string(), name: z.string(), code: z.string() }),
  order: z.number(),
  effort: trialRow.shape.effort,
  state: trialState,
  recording: z.object({
    sha256: z.string(),
    label: z.string(),
    fileName: z.string(),
    format: z.string(),
    sampleRate: z.number(),
    sampleCount: z.number(),
    importedAt: z.string(),
  }),
  span: sampleSpan.optional(),
  /** Absent where no cue was given, and for imported trials. */
  cueHeard: cueHeard.optional(),
  result: trialResult,
  /** When and by what the result was computed. */
  provenance: z.object({
    method: methodReference,
    application: z.string(),
    computedAt: z.string(),
    recording: z.string(),
  }),
  decisions: z.array(decision),
  /** What one step of undo or redo would do; absent when there is nothing. */
  undo: z.object({ id: z.string(), words: z.string() }).optional(),
  redo: z.object({ id: z.string(), words: z.string() }).optional(),
  siblings: z.array(trialRow),
});

export type CueHeard = z.infer<typeof cueHeard>;
export type Decision = z.infer<typeof decision>;
export type DecisionDraft = z.infer<typeof decisionDraft>;
export type TrialView = z.infer<typeof trialView>;
