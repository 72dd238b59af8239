import { z } from 'zod';

/**
 * What may keep a person from an effort. `clearance`: medical clearance of a limb or test, given or withheld. `submaximal-only`.
 * `screening` and `consent` expire. `pain-stop` is made by the pain command: no further maximal effort that day, and a named
 * person releases it.
 */
export const gateKind = z.enum(['clearance', 'submaximal-only', 'screening', 'consent', 'pain-stop']);

export const gateLimb = z.enum(['both', 'left', 'right']);

export const gateDraft = z.object({
  kind: gateKind,
  /** For `clearance`, `screening`, `consent`: given or withheld. Others: in force or not. */
  granted: z.boolean(),
  limb: gateLimb.default('both'),
  /** A test's id; absent: every test. */
  test: z.string().max(100).optional(),
  from: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  /** Last day on which it holds. */
  until: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/)
    .optional(),
  note: z.string().max(2000).default(''),
  by: z.string().min(1).max(100),
});

/** `blocks`: no effort at all. `submaximal-only`. `asks`: go on only after a readiness answer. `notes`: said, nothing kept back. */
export const gateEffect = z.enum(['blocks', 'submaximal-only', 'asks', 'notes']);

/** A record of a person. */
export const gate = z.object({
  id: z.string(),
  revision: z.number(),
  person: z.string(),
  kind: gateKind,
  granted: z.boolean(),
  limb: gateLimb,
  test: z.string().optional(),
  from: z.string(),
  until: z.string().optional(),
  note: z.string(),
  /** Present when someone lifted it. */
  released: z.object({ by: z.string(), at: z.string(), reason: z.string() }).optional(),
});

export const gateRelease = z.object({ by: z.string().min(1).max(100), reason: z.string().min(1).max(500) });

/** A gate as it stands for one entry of a day. */
export const standingGate = z.object({
  /** Id of the record; absent where the lack of one is meant (`no screening on record`). */
  id: z.string().optional(),
  kind: z.enum([...gateKind.options, 'minor', 'warm-up']),
  effect: gateEffect,
  limb: gateLimb,
  test: z.string().optional(),
  until: z.string().optional(),
  words: z.string(),
});

export type Gate = z.infer<typeof gate>;
export type GateDraft = z.infer<typeof gateDraft>;
export type GateEffect = z.infer<typeof gateEffect>;
export type StandingGate = z.infer<typeof standingGate>;
