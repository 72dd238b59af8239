import { z } from 'zod';

/** Reasons travel as text so that an older reader survives a newer reason. */
const reason = z.string();

const outcome = <T extends z.ZodType>(value: T) =>
  z.union([z.object({ ok: z.literal(true), value }), z.object({ ok: z.literal(false), reason })]);

export const sampleSpan = z.object({ start: z.number(), end: z.number() });

export const baseline = z.object({ start: z.number(), end: z.number(), mean: z.number(), sd: z.number() });

export const onset = z.object({
  index: z.number(),
  rule: z.string(),
  threshold: z.number(),
  thresholdUnit: z.string(),
  baseline,
  search: sampleSpan,
  byHand: z.object({ by: z.string(), reason: z.string(), automatic: outcome(z.number()) }).optional(),
});

export const effortEvents = z.object({
  span: sampleSpan,
  anchor: z.number(),
  anchorMean: z.number(),
  quietLevel: z.number(),
  quietWindow: sampleSpan.optional(),
  halfLevel: z.number(),
  halfRise: z.number(),
  end: z.number(),
  peak: z.object({ index: z.number(), force: z.number() }),
  baseline: outcome(baseline),
  onset: outcome(onset),
  riseStart: outcome(z.number()),
});

const weighingWindow = z.object({
  start: z.number(),
  end: z.number(),
  place: z.enum(['before', 'after']),
  chosenBy: z.enum(['cue', 'quiet']),
  mean: z.number(),
  sd: z.number(),
  slope: z.number(),
  halves: z.number(),
});

export const jumpKind = z.enum(['countermovement', 'squat', 'drop', 'repeated']);
export const jumpPhase = z.enum(['weighing', 'unweighting', 'braking', 'propulsion', 'flight', 'landing']);

const jumpMark = z.object({ index: z.number(), value: z.number(), unit: z.string() });

/** Instants of a jump; ids of rules and definitions travel as text, so that an older reader survives a newer one. */
export const jumpEvents = z.object({
  kind: jumpKind,
  span: sampleSpan,
  weighing: outcome(weighingWindow),
  threshold: z.object({
    rule: z.string(),
    value: z.number(),
    window: sampleSpan,
    flightMean: z.number(),
    flightSd: z.number(),
    zeroOffset: z.number(),
  }),
  lowestForce: jumpMark.optional(),
  peakNegativeVelocity: jumpMark.optional(),
  lowestPosition: jumpMark.optional(),
  propulsionStart: z.number().optional(),
  peakForce: jumpMark.optional(),
  takeOff: z.number(),
  touchdown: z.number(),
  takeOffExact: z.number(),
  touchdownExact: z.number(),
  endOfLanding: z.number().optional(),
  firstTouchdown: z.number().optional(),
  contacts: z.array(z.object({ touchdown: z.number(), takeOff: z.number(), nextTouchdown: z.number() })),
  phases: z.array(
    z.object({
      id: jumpPhase,
      definition: z.string(),
      start: z.number(),
      end: z.number(),
    }),
  ),
});

const evidence = z.object({
  interval: sampleSpan.optional(),
  points: z.array(z.object({ at: z.number(), force: z.number(), of: z.enum(['total', 'left', 'right']) })).optional(),
  terms: z.array(z.object({ name: z.string(), value: z.number(), unit: z.string() })).optional(),
});

export const measured = z.union([
  z.object({ value: z.number(), unit: z.string(), evidence, exponent: z.number().optional() }),
  z.object({ reason, evidence: evidence.optional() }),
]);

export const checkResult = z.object({
  status: z.enum(['pass', 'warn', 'fail', 'not-judged']),
  value: z.number().optional(),
  limit: z.number().optional(),
  unit: z.string(),
  notJudged: z.string().optional(),
  judged: sampleSpan.optional(),
  marks: z.array(z.object({ at: z.number(), force: z.number(), label: z.string() })).optional(),
});

export const verdict = z.enum(['counts', 'look-again', 'repeat']);

export const methodReference = z.object({ name: z.string(), version: z.number(), sha256: z.string() });

export const bodyWeight = z.object({
  value: z.number(),
  unit: z.string(),
  from: z.enum(['weighing', 'given', 'baseline']),
});

export const spread = z.object({ min: z.number(), max: z.number(), by: z.record(z.string(), z.number()) });

/** The core's TrialResult as it is stored and sent; a test keeps this schema and the core type equal. */
export const trialResult = z.object({
  test: z.string(),
  testVersion: z.number(),
  method: methodReference,
  sampleRate: z.number(),
  span: sampleSpan,
  reason: reason.optional(),
  events: effortEvents.optional(),
  jump: jumpEvents.optional(),
  onset: outcome(onset),
  bodyWeight: outcome(bodyWeight),
  gravity: z.number(),
  metrics: z.record(z.string(), measured),
  checks: z.record(z.string(), checkResult),
  spread: z.record(z.string(), spread),
  onsets: z.record(z.string(), outcome(onset)),
  verdict,
});
