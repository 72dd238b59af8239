import { z } from 'zod';
import { jumpKind, verdict as verdictWord } from '../result/trial.ts';
import { batteryPlace, plannedEffort } from './day.ts';

/** Phases of a turn, in their order; `waiting`: nobody's turn. The effort is a `pull`, or in a jump test a `jump`. */
export const livePhase = z.enum([
  'waiting',
  'zero',
  'stand-still',
  'set-up',
  'ready',
  'cue',
  'pull',
  'jump',
  'verdict',
  'rest',
]);

/** Where a jump stands: under way on the plates, in the air, back on the plates, standing still. */
export const jumpStage = z.enum(['go', 'flight', 'landing', 'still']);

/** A turn: one person's visit to a rig. */
export const liveTurn = z.object({
  id: z.string(),
  entry: z.string(),
  person: z.object({ id: z.string(), name: z.string(), code: z.string() }),
  test: z.string(),
  effort: plannedEffort,
  /** `Second of three maximal efforts`. */
  words: z.string(),
  /** In a battery: which of this person's tests it is. */
  battery: batteryPlace.optional(),
});

/**
 * How forces are told. `total`: as measured. `above`: above standing, because the body weight of whoever is on the rig stays with
 * the station. `hidden`: only whether something is on the plates, while such a person is weighed.
 */
export const forceTelling = z.enum(['total', 'above', 'hidden']);

/** What goes on at one rig; everything the Floor screen needs besides the curve. Forces in N, told as `forces` says. */
export const rigFloor = z.object({
  rig: z.string(),
  phase: livePhase,
  /** Sample at which the phase began. */
  since: z.number(),
  turn: liveTurn.optional(),
  /** Id of the effort under way or just judged; new with each attempt. */
  trial: z.string().optional(),
  guided: z.boolean(),
  /** Hands-free: whether cues may be given in this turn. */
  armed: z.boolean(),
  /** Frozen by `hold`. */
  held: z.boolean(),
  forces: forceTelling,
  /** What to do now, in one sentence, and its code. */
  now: z.object({ code: z.string(), words: z.string() }),
  /** What is to be said to the athlete now; the same as `now` where that is meant for them. Absent: nobody is there. */
  say: z.object({ code: z.string(), words: z.string() }).optional(),
  /** In a jump test: what kind, in the phase `jump` where it stands, and how often the plates were left so far. */
  jump: z.object({ kind: jumpKind, stage: jumpStage.optional(), flights: z.number().optional() }).optional(),
  weighing: z
    .object({
      /** Share of the needed quiet time reached, 0 to 1. */
      progress: z.number(),
      done: z.boolean(),
      /** In a battery: that the weight of an earlier test stands, or why it does not. */
      note: z.string().optional(),
      /** Body weight, N; absent where it may not leave the station. */
      bodyWeight: z.number().optional(),
      /** Left share while standing, 0 to 1. */
      leftShare: z.number().optional(),
    })
    .optional(),
  /** Permitted tension before the cue, N. */
  tension: z.object({ low: z.number(), high: z.number() }).optional(),
  /** Target band of a submaximal effort, N. */
  target: z.object({ low: z.number(), high: z.number() }).optional(),
  /** Fixed axis of the live curve, N. */
  scale: z.object({ low: z.number(), high: z.number() }),
  /** This person's best counting peak with this test, N. */
  best: z.number().optional(),
  verdict: z.string().optional(),
  /** Whether whoever is on the rig may be filmed, and why not; absent: nobody is there. */
  film: z.object({ allowed: z.boolean(), words: z.string() }).optional(),
});

/** One value of a verdict against the athlete's own history. */
export const comparedValue = z.object({
  metric: z.string(),
  words: z.string(),
  value: z.number(),
  unit: z.string(),
  /** Earlier counting maximal trials of the same test. */
  history: z.object({ n: z.number(), best: z.number(), mean: z.number() }).optional(),
  best: z.boolean(),
});

/**
 * The verdict on an effort. Its samples are safe in the journal; recording, trial and result are stored in the moment after it, and
 * `GET trials/:id` answers from then on. The `day` that follows lists the trial then.
 */
export const liveVerdict = z.object({
  rig: z.string(),
  turn: z.string(),
  /** Id of the stored trial. */
  trial: z.string(),
  session: z.string(),
  person: z.object({ id: z.string(), name: z.string(), code: z.string() }),
  effort: plannedEffort,
  verdict: verdictWord,
  /** Findings in plain words, worst first. */
  reasons: z.array(z.object({ check: z.string(), status: z.enum(['warn', 'fail']), words: z.string() })),
  /** What to say to the athlete, one sentence. */
  say: z.string(),
  /** How the forces among `values` and `closeness` are told; `history` too. */
  forces: forceTelling,
  /** Of a submaximal effort: the band aimed at and how close it came. */
  closeness: z
    .object({
      low: z.number(),
      high: z.number(),
      reached: z.number(),
      /** 100 (reached - aim) / rise aimed at, %. */
      deviation: z.number(),
      where: z.enum(['inside', 'under', 'over']),
    })
    .optional(),
  values: z.array(comparedValue),
  /** Where the evidence is: samples of the stored recording. */
  evidence: z.object({
    /** SHA-256 of the recording's file; absent until it is stored. */
    recording: z.string().optional(),
    /** Sample of the stream at which the recording begins. */
    from: z.number(),
    span: z.object({ start: z.number(), end: z.number() }),
    onset: z.number().optional(),
    peak: z.number().optional(),
    end: z.number().optional(),
    /** Of a jump, in place of peak and end. */
    takeOff: z.number().optional(),
    touchdown: z.number().optional(),
  }),
  /** From the detected end of the effort to this message, ms. */
  tookMs: z.number(),
});

export type JumpStage = z.infer<typeof jumpStage>;
export type LivePhase = z.infer<typeof livePhase>;
export type LiveTurn = z.infer<typeof liveTurn>;
export type RigFloor = z.infer<typeof rigFloor>;
export type LiveVerdict = z.infer<typeof liveVerdict>;
export type ComparedValue = z.infer<typeof comparedValue>;
