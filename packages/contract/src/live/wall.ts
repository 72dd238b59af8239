import { z } from 'zod';
import { verdict } from '../result/trial.ts';
import { jumpStage, livePhase } from './floor.ts';

/**
 * What the wall may know, listed field by field. The wall hangs where everybody looks: it is told neither body weight nor mass
 * nor a value per kilogram, nor anything from which they could be worked out. Forces are therefore those above standing
 * (total minus body weight), never the total: while an athlete stands still, the total is the body weight.
 */
export const wallRig = z.strictObject({
  rig: z.string(),
  letter: z.string(),
  shape: z.string(),
  phase: livePhase,
  /** Name, given name or code, as the day says. */
  who: z.string().optional(),
  /** In a battery: which test it is, `Test 2 of 3: isometric mid-thigh pull`. */
  test: z.string().optional(),
  /** What comes now, in words: `Second of three maximal efforts`. */
  what: z.string().optional(),
  /** What the athlete has to do now; absent: nothing. */
  now: z.string().optional(),
  /** A jump test: no force is told in it, because with the height that follows it would be the mass. */
  jump: z.boolean().optional(),
  /** In the phase `jump`: where the jump stands. */
  stage: jumpStage.optional(),
  held: z.boolean(),
  /** Upper end of the bar, N above standing. */
  scale: z.number(),
  /** N above standing. */
  target: z.strictObject({ low: z.number(), high: z.number() }).optional(),
  /** The athlete's own best, N above standing. */
  best: z.number().optional(),
  /** Result of the last effort, while it is shown. */
  result: z
    .strictObject({
      trial: z.string(),
      verdict,
      say: z.string(),
      /** Highest force above standing, N. */
      highest: z.number().optional(),
      /** Of a jump, in place of the force: its height, m. */
      height: z.number().optional(),
      best: z.boolean(),
    })
    .optional(),
});

export const wallNext = z.strictObject({
  who: z.string(),
  /** Whoever is on the rig goes on themselves: title of their next test. */
  test: z.string().optional(),
  rig: z.string(),
  /** Seconds of rest left when this was sent. */
  restLeft: z.number().optional(),
});

export const wallState = z.strictObject({
  type: z.literal('wall'),
  sequence: z.number(),
  blank: z.boolean(),
  title: z.string(),
  /** A day is open. */
  open: z.boolean(),
  /** Letter and shape of every rig, blank or not, so that a wall can be told from its neighbour. */
  marks: z.array(z.strictObject({ rig: z.string(), letter: z.string(), shape: z.string() })),
  rigs: z.array(wallRig),
  next: z.array(wallNext),
});

/** Force above standing, from the moment the athlete was weighed; nothing is sent before. */
export const wallEnvelope = z.strictObject({
  type: z.literal('wall-envelope'),
  sequence: z.number(),
  rig: z.string(),
  first: z.number(),
  bucket: z.number(),
  rate: z.number(),
  /** min, max, min, max, ... in N above standing. */
  above: z.array(z.number()),
});

export type WallState = z.infer<typeof wallState>;
export type WallRig = z.infer<typeof wallRig>;
export type WallEnvelope = z.infer<typeof wallEnvelope>;
