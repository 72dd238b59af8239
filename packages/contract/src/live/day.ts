import { z } from 'zod';
import { protocolDocument } from '../api/protocol-document.ts';
import { trialRow } from '../api/sessions.ts';
import { verdict } from '../result/trial.ts';
import { standingGate } from './gates.ts';

const setupValues = z.record(z.string(), z.union([z.string(), z.number(), z.boolean()]));

export const dayStatus = z.enum(['planned', 'open', 'closed']);

/** `blocked` has a gate, or a pain stop, that lets nothing of what is left through; `left` went before the plan was done. */
export const entryState = z.enum(['waiting', 'warming-up', 'on-rig', 'resting', 'done', 'left', 'blocked']);

export const effortKind = z.enum(['maximal', 'submaximal', 'familiarisation']);

/**
 * A battery: everybody does the tests of the day in order, as one visit with one weighing on each rig. `by-person`: one athlete through
 * all tests, then the next. `by-test`: one test for all, then the next. Absent: the tests of the day have nothing to do with each other.
 */
export const batteryOrder = z.enum(['by-person', 'by-test']);

/** In a battery: which of a person's tests it is. */
export const batteryPlace = z.object({ place: z.number().int().min(1), of: z.number().int().min(1) });

const testRigs = z.record(z.string(), z.array(z.string()).max(8));

/** One effort of a plan. */
export const plannedEffort = z.object({
  kind: effortKind,
  /** Submaximal: share of the expected maximum, 0 to 1. */
  share: z.number().min(0).max(1).optional(),
});

/** The steps of one test for everyone of a day; an entry may skip some. */
export const dayPlan = z.object({
  test: z.string(),
  /** SHA-256 of the protocol version it is run by; absent: the built-in one of the test. */
  protocol: z
    .string()
    .regex(/^[\da-f]{64}$/)
    .optional(),
  efforts: z.array(plannedEffort).min(1).max(20),
  rest: z.object({
    /** Before the next maximal effort, s. */
    minimum: z.number().min(0).max(3600),
    /** After this, warm up again, s. */
    maximum: z.number().min(0).max(7200),
  }),
  /** Rigs of the day this test is done on; absent: any of them. */
  rigs: z.array(z.string()).min(1).max(8).optional(),
});

/** The protocol version a test of the day is run by: all that screens and paper need of it. */
export const dayProtocol = z.object({ sha256: z.string(), document: protocolDocument });

export const dayDraft = z.object({
  date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  title: z.string().max(200).default(''),
  /** Test ids, protocol versions by their hash, or full plans; the first two take the plan of their protocol. */
  tests: z
    .array(z.union([z.string(), dayPlan, z.object({ protocol: z.string().regex(/^[\da-f]{64}$/) })]))
    .min(1)
    .max(5),
  rigs: z.array(z.string()).max(8),
  people: z.array(z.string()).max(500).default([]),
  /** A squad whose members are added after `people`. */
  squad: z.string().optional(),
  handsFree: z.boolean().default(false),
  /** People of a heat, by the running order: a heat begins when the one before it is through. Absent: everybody is one heat. */
  heatSize: z.number().int().min(1).max(99).optional(),
  battery: batteryOrder.optional(),
  /** By test: the rigs it is done on. A test that is not named, or without rigs: any rig of the day. */
  testRigs: testRigs.optional(),
  /** What the wall shows of a person. */
  wallNames: z.enum(['name', 'given-name', 'code']).default('given-name'),
  notes: z.string().max(10_000).default(''),
  by: z.string().min(1).max(100),
});

/** Answers of the readiness questions, asked before the first effort. */
export const readiness = z.object({
  pain: z.boolean(),
  /** Injured or ill since the last test. */
  injury: z.boolean(),
  screened: z.boolean(),
  consent: z.boolean(),
  warmedUp: z.boolean(),
  note: z.string().max(2000).default(''),
});

export const readinessAnswer = readiness.extend({ by: z.string(), at: z.string() });

/** Counting of a rest: the screen counts down by itself from these. */
export const restView = z.object({
  /** Instant of the last effort's end. */
  since: z.string(),
  /** From this instant on the next effort may begin. */
  readyAt: z.string(),
  /** From this instant on: warm up again. */
  staleAt: z.string(),
  /** Seconds left when this was sent; below 0: over. */
  left: z.number(),
  state: z.enum(['too-short', 'ready', 'too-long']),
});

/** An effort done, as the running order shows it. */
export const doneEffort = z.object({
  trial: z.string(),
  kind: effortKind,
  verdict,
  state: trialRow.shape.state,
  peakForce: z.number().optional(),
  unit: z.string(),
});

export const dayEntry = z.object({
  id: z.string(),
  revision: z.number(),
  position: z.number(),
  person: z.object({ id: z.string(), name: z.string(), code: z.string(), minor: z.boolean() }),
  test: z.string(),
  state: entryState,
  /** Present while on a rig. */
  rig: z.string().optional(),
  /** A rig this person must use; absent: any. */
  fixedRig: z.string().optional(),
  walkIn: z.boolean(),
  /** In a battery: which of this person's tests it is. */
  battery: batteryPlace.optional(),
  /** In a battery: entry of the test this person does before, while that is not done. */
  after: z.string().optional(),
  /** Where the day has heats: number of this person's, from 1, by the running order. */
  heat: z.number().int().min(1).optional(),
  rest: restView.optional(),
  efforts: z.array(doneEffort),
  remaining: z.array(plannedEffort),
  /** What comes next, in words: `Second of three maximal efforts`. */
  next: z.string(),
  readiness: readinessAnswer.optional(),
  gates: z.array(standingGate),
  /** The strictest of the gates that stand. */
  allowed: z.enum(['maximal', 'submaximal', 'after-answers', 'nothing']),
  setup: setupValues,
  /** Ids of setup fields that the protocol needs and that are empty. */
  setupMissing: z.array(z.string()).optional(),
  /** A finished set with fewer counting efforts than the protocol asks for. */
  incomplete: z.boolean().optional(),
  /** Setup of this person's last session with this test. */
  lastSetup: z.object({ at: z.string(), values: setupValues }).optional(),
  session: z.string().optional(),
  notes: z.string(),
});

/** When the day will be over, and what leaving a step out would save. */
export const dayForecast = z.object({
  endsAt: z.string(),
  secondsLeft: z.number(),
  effortsLeft: z.number(),
  savings: z.array(z.object({ step: z.string(), words: z.string(), seconds: z.number() })),
  /** When the heats begin of which nobody has begun. */
  heats: z.array(z.object({ heat: z.number(), startsAt: z.string() })).optional(),
});

export const day = z.object({
  id: z.string(),
  revision: z.number(),
  date: z.string(),
  title: z.string(),
  status: dayStatus,
  tests: z.array(dayPlan),
  /** The protocol of each test, in the order of `tests`. */
  protocols: z.array(dayProtocol).optional(),
  rigs: z.array(z.string()),
  handsFree: z.boolean(),
  heatSize: z.number().int().min(1).max(99).optional(),
  battery: batteryOrder.optional(),
  wallNames: dayDraft.shape.wallNames.unwrap(),
  notes: z.string(),
  entries: z.array(dayEntry),
  /** Who goes on which rig next, with the reason in words. */
  next: z.array(z.object({ rig: z.string(), entry: z.string(), at: z.string(), words: z.string() })),
  forecast: dayForecast,
  cautions: z.array(z.string()),
  /** Sleep of this machine while the day is open. */
  awake: z.object({ held: z.boolean(), words: z.string() }),
});

/** One line of the list of days. */
export const dayRow = z.object({
  id: z.string(),
  date: z.string(),
  title: z.string(),
  status: dayStatus,
  tests: z.array(z.string()),
  people: z.number(),
  trials: z.number(),
});

export const dayChange = z.object({
  title: z.string().max(200).optional(),
  date: dayDraft.shape.date.optional(),
  tests: dayDraft.shape.tests.optional(),
  rigs: z.array(z.string()).max(8).optional(),
  handsFree: z.boolean().optional(),
  wallNames: dayDraft.shape.wallNames.unwrap().optional(),
  /** Null: no heats. May be changed while the day runs. */
  heatSize: z.number().int().min(1).max(99).nullable().optional(),
  /** Null: no battery. May be changed while the day runs; the running order is sorted anew. */
  battery: batteryOrder.nullable().optional(),
  /** As in the plan, for all tests of the day; absent: tests that stay keep their rigs. Not while it runs. */
  testRigs: testRigs.optional(),
  notes: z.string().max(10_000).optional(),
  by: z.string().min(1).max(100),
});

export const entryDraft = z.object({
  person: z.union([
    z.object({ id: z.string() }),
    z.object({
      create: z.object({
        code: z.string().max(40).optional(),
        givenName: z.string().min(1).max(100),
        familyName: z.string().max(100),
        birthDate: dayDraft.shape.date.optional(),
        sex: z.enum(['female', 'male', 'other']).optional(),
      }),
    }),
  ]),
  /** Absent: in a battery all tests of the day, else its only test, or its first. */
  test: z.string().optional(),
  /** 1 is first; absent: last. */
  position: z.number().int().min(1).optional(),
  walkIn: z.boolean().default(true),
  by: z.string().min(1).max(100),
});

export const entryChange = z.object({
  /** In a battery the newest answers of a person hold for all their tests. */
  readiness: readiness.optional(),
  setup: setupValues.optional(),
  notes: z.string().max(10_000).optional(),
  /** `left` and back to `waiting`; `warming-up` says that a warm-up has begun again. */
  state: z.enum(['waiting', 'warming-up', 'left', 'done']).optional(),
  fixedRig: z.string().nullable().optional(),
  /** What is still to be done, when it is not what the plan says. */
  remaining: z.array(plannedEffort).max(20).optional(),
  by: z.string().min(1).max(100),
});

export const dayOrder = z.object({ entries: z.array(z.string()).min(1), by: z.string().min(1).max(100) });

/** A day to practise on with the example squad. */
export const practiceDraft = z.object({ by: z.string().min(1).max(100) });

/** A trial given to another person, or to nobody's plan, after the fact. */
export const trialOwner = z.object({
  person: z.string(),
  reason: z.string().min(1).max(500),
  by: z.string().min(1).max(100),
});

export type BatteryOrder = z.infer<typeof batteryOrder>;
export type Day = z.infer<typeof day>;
export type DayDraft = z.input<typeof dayDraft>;
export type DayEntry = z.infer<typeof dayEntry>;
export type DayForecast = z.infer<typeof dayForecast>;
export type DayPlan = z.infer<typeof dayPlan>;
export type DayRow = z.infer<typeof dayRow>;
export type EntryState = z.infer<typeof entryState>;
export type PlannedEffort = z.infer<typeof plannedEffort>;
export type Readiness = z.infer<typeof readiness>;
export type RestView = z.infer<typeof restView>;
