import { z } from 'zod';
import { labId } from '../api/lab.ts';
import type { Route } from '../api/routes.ts';
import {
  loadDirection,
  loadSpot,
  plateCorrection,
  referenceMass,
  rigCheckDocument,
  rigCheckResult,
  rigQuantity,
  rigVerdict,
  siteGravity,
} from './rig-check-result.ts';

const by = z.string().min(1).max(100);

/** What a lab has decided about checks of its rigs. */
export const rigCheckSettings = z.object({
  /** Own limits in place of the defaults, in the unit of each. */
  limits: z.partialRecord(rigQuantity, z.number().positive()),
  /** Days from one full check to the next. */
  interval: z.number().int().min(1).max(3660),
  /** What opening a day does when the check of one of its rigs is overdue. */
  overdue: z.enum(['refuse', 'warn', 'allow']),
  gravity: siteGravity,
  /** kg/m^3. */
  airDensity: z.number().min(0.8).max(1.5),
  /** Masses in the order they are put on. */
  masses: z.array(referenceMass).max(60),
});

/** When a rig is to be checked again, and what its last check said. */
export const rigCheckDue = z.object({
  standing: z.enum(['never', 'good', 'soon', 'overdue']),
  at: z.string().optional(),
  days: z.number().optional(),
});

/** One step of the guided check. */
export const checkStep = z.object({
  plate: z.string(),
  series: z.number().int().min(1).max(20),
  direction: loadDirection,
  spot: loadSpot,
  masses: z.array(z.string()),
});

/** What a check is begun with. */
export const rigCheckBegin = z.object({
  /** Masses in the order they are put on. */
  masses: z.array(referenceMass).min(1).max(60),
  gravity: siteGravity.omit({ uncertainty: true }),
  airDensity: z.number().min(0.8).max(1.5),
  series: z.number().int().min(1).max(5),
  spots: z.boolean(),
  by,
});

/** A check that is being made. It lies in the lab's folder until it is kept or thrown away. */
export const rigCheckDraft = z.object({
  rig: z.string(),
  by: z.string(),
  startedAt: z.string(),
  document: rigCheckDocument,
  steps: z.array(checkStep),
  /** Index of the first step without a reading; the number of steps when all are read. */
  next: z.number(),
  /** What the readings so far say. */
  result: rigCheckResult,
});

/** What each plate shows now, and for how long it has been at rest. */
export const plateNow = z.object({
  plate: z.string(),
  mean: z.number(),
  sd: z.number(),
  steadyFor: z.number(),
  /** Where the load stands, mm from the middle in the plate's axes; of plates that tell, with a load on them. */
  place: z.object({ x: z.number(), y: z.number() }).optional(),
});

export const platesNow = z.object({
  /** Seconds a plate must rest before it is read. */
  needed: z.number(),
  plates: z.array(plateNow),
});

export const checkRead = z.object({
  step: checkStep,
  /** N, where it is typed from a display; absent: read from the samples. */
  typed: z.number().min(-100_000).max(100_000).optional(),
  /** Also where the reading is far from the load. */
  anyway: z.boolean().default(false),
});

/** Further things that may be looked at in a check. */
export const checkExtra = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('rest') }),
  z.object({ kind: z.literal('tap'), plate: z.string() }),
  z.object({ kind: z.literal('person'), plate: z.string() }),
  z.object({ kind: z.literal('cell'), cell: z.number().min(0).max(100_000) }),
]);

/** What somebody does on virtual plates, so that every part of a check can be tried without masses; `pull`: held against a reference cell. */
export const virtualCheckAct = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('tap'), plate: z.string() }),
  z.object({ kind: z.literal('stand'), plate: z.string() }),
  z.object({ kind: z.literal('pull'), newtons: z.number().min(0).max(10_000) }),
  z.object({ kind: z.literal('clear') }),
]);

/** A kept check. */
export const rigCheckView = z.object({
  id: z.string(),
  rig: z.string(),
  at: z.string(),
  by: z.string(),
  note: z.string(),
  document: rigCheckDocument,
  result: rigCheckResult,
});

export const rigCorrectionView = z.object({
  id: z.string(),
  rig: z.string(),
  check: z.string().optional(),
  at: z.string(),
  by: z.string(),
  reason: z.string(),
  plates: z.array(plateCorrection),
});

/** Everything known of the checks of a rig. */
export const rigChecksView = z.object({
  due: rigCheckDue,
  /** Verdict of the newest check. */
  last: rigVerdict.optional(),
  /** Newest first. */
  checks: z.array(rigCheckView),
  /** Newest first; the first is in force. */
  corrections: z.array(rigCorrectionView),
  /** Gain error in %, zero and noise in N of each plate by itself, check by check, oldest first; limits of the newest. */
  history: z.array(
    z.object({
      plate: z.string(),
      points: z.array(
        z.object({
          at: z.string(),
          gain: z.number().optional(),
          zero: z.number().optional(),
          noise: z.number().optional(),
        }),
      ),
      limits: z.object({ gain: z.number().optional(), zero: z.number().optional(), noise: z.number().optional() }),
    }),
  ),
  /** How the gain of each plate wanders, % a year; of plates with three checks or more. */
  trend: z.array(
    z.object({ plate: z.string(), n: z.number(), perYear: z.number(), error: z.number(), now: z.number() }),
  ),
  draft: rigCheckDraft.optional(),
});

export const rigCorrectionDraft = z.object({
  /** The check it comes from; absent with no plates takes corrections back. */
  check: z.string().optional(),
  plates: z.array(z.string()).max(16),
  reason: z.string().trim().min(3).max(2000),
  by,
});

/** What a correction would do to sessions of a rig that were measured without it. */
export const correctionEffect = z.object({
  sessions: z.array(
    z.object({
      session: z.string(),
      person: z.string(),
      /** Name of the athlete. */
      name: z.string(),
      startedAt: z.string(),
      trials: z.number(),
      /** What efforts of the test are ranked by. */
      metric: z.string(),
      /** Mean of that metric over the trials that have one, as it stands and as it would be. */
      before: z.number().optional(),
      after: z.number().optional(),
      unit: z.string(),
    }),
  ),
  trials: z.number(),
  /** Judging again: sessions left as they were, because somebody decided about one of their efforts meanwhile; absent where there is none. */
  leftOut: z.number().int().min(1).optional(),
});

export const effectQuery = z.object({
  correction: z.string(),
  /** Days, inclusive, `YYYY-MM-DD`. */
  from: z.string().optional(),
  until: z.string().optional(),
});

export const effectApply = effectQuery.extend({ reason: z.string().trim().min(3).max(2000), by });

const route = <P, Q, B, R>(definition: Route<P, Q, B, R>): Route<P, Q, B, R> => definition;
const inLab = z.object({ lab: labId });
const ofRig = z.object({ lab: labId, id: z.string() });
const signed = z.object({ by });
const base = '/api/labs/:lab/rigs/:id/check';

/** Routes of checks with known masses. */
export const rigCheckRoutes = {
  rigCheckSettings: route({
    method: 'GET',
    path: '/api/labs/:lab/rig-check-settings',
    summary: 'Limits, masses, gravity, interval, and what an overdue check does',
    params: inLab,
    response: rigCheckSettings,
  }),
  changeRigCheckSettings: route({
    method: 'PUT',
    path: '/api/labs/:lab/rig-check-settings',
    summary: 'Change limits, masses, gravity, interval, or what an overdue check does',
    params: inLab,
    body: rigCheckSettings.extend(signed.shape),
    response: rigCheckSettings,
  }),
  rigChecks: route({
    method: 'GET',
    path: `${base}s`,
    summary: 'Checks and corrections of a rig, the check that is being made, and when the next is due',
    params: ofRig,
    response: rigChecksView,
  }),
  beginRigCheck: route({
    method: 'POST',
    path: base,
    summary: 'Begin a check on a rig that measures; its empty plates are zeroed',
    params: ofRig,
    body: rigCheckBegin,
    response: rigCheckDraft,
  }),
  platesNow: route({
    method: 'GET',
    path: `${base}/now`,
    summary: 'What each plate shows now, from its samples, and for how long it has rested',
    params: ofRig,
    response: platesNow,
  }),
  readRigCheck: route({
    method: 'POST',
    path: `${base}/readings`,
    summary: 'Read a step from the samples, or take a typed reading, which stays marked as one',
    params: ofRig,
    body: checkRead,
    response: rigCheckDraft,
  }),
  undoRigCheck: route({
    method: 'DELETE',
    path: `${base}/readings`,
    summary: 'Take the last reading back',
    params: ofRig,
    response: rigCheckDraft,
  }),
  extraRigCheck: route({
    method: 'POST',
    path: `${base}/extras`,
    summary: 'Look at the empty plates, a tap, a person on one plate, or a pull against a reference cell',
    params: ofRig,
    body: checkExtra,
    response: rigCheckDraft,
  }),
  finishRigCheck: route({
    method: 'POST',
    path: `${base}/finish`,
    summary: 'Keep the check; it is never changed again',
    params: ofRig,
    body: z.object({ note: z.string().max(2000).default(''), by }),
    response: rigCheckView,
  }),
  dropRigCheck: route({
    method: 'DELETE',
    path: base,
    summary: 'Throw the check away that is being made',
    params: ofRig,
    response: z.object({ dropped: z.boolean() }),
  }),
  putMasses: route({
    method: 'POST',
    path: `${base}/masses`,
    summary: 'Let masses be put on virtual plates; refused for real ones',
    params: ofRig,
    body: z.object({ plate: z.string(), spot: loadSpot.default('centre'), masses: z.array(z.string()).max(60), by }),
    response: z.object({ plate: z.string(), kilograms: z.number() }),
  }),
  actOnVirtual: route({
    method: 'POST',
    path: `${base}/virtual`,
    summary: 'Let virtual plates be tapped, stood or pulled on, or emptied; refused for real ones',
    params: ofRig,
    body: virtualCheckAct,
    response: z.object({
      /** What the reference cell shows, N. */
      cell: z.number().optional(),
    }),
  }),
  correctRig: route({
    method: 'POST',
    path: '/api/labs/:lab/rigs/:id/corrections',
    summary: 'Adopt the correction of a check, or take corrections back; sessions measured later have it',
    params: ofRig,
    body: rigCorrectionDraft,
    response: rigCorrectionView,
  }),
  correctionEffect: route({
    method: 'GET',
    path: '/api/labs/:lab/rigs/:id/correction-effect',
    summary: 'What a correction would do to earlier sessions of the rig; nothing is changed',
    params: ofRig,
    query: effectQuery,
    response: correctionEffect,
  }),
  applyCorrection: route({
    method: 'POST',
    path: '/api/labs/:lab/rigs/:id/correction-effect',
    summary: 'Judge earlier sessions of the rig again with a correction; raw samples and earlier results stay',
    params: ofRig,
    body: effectApply,
    response: correctionEffect,
  }),
};

export type RigCheckSettings = z.infer<typeof rigCheckSettings>;
export type RigCheckDraft = z.infer<typeof rigCheckDraft>;
export type RigCheckView = z.infer<typeof rigCheckView>;
export type RigChecksView = z.infer<typeof rigChecksView>;
export type RigCorrectionView = z.infer<typeof rigCorrectionView>;
export type RigCheckBegin = z.infer<typeof rigCheckBegin>;
export type CheckStepView = z.infer<typeof checkStep>;
export type CheckExtra = z.infer<typeof checkExtra>;
export type VirtualCheckAct = z.infer<typeof virtualCheckAct>;
export type PlatesNow = z.infer<typeof platesNow>;
export type CorrectionEffect = z.infer<typeof correctionEffect>;
export type RigCheckDueView = z.infer<typeof rigCheckDue>;
