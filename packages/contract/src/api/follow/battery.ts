import { z } from 'zod';
import { interval } from '../athlete.ts';

/** Days that may lie between the tests of one ratio unless somebody says otherwise: common practice, no published limit. */
export const usualDaysApart = 14;

/** A push-off distance somebody can have, cm: smallest and largest. */
export const pushOffRange = [10, 80] as const;

export const ratioId = z.enum(['dynamic_strength_index', 'eccentric_utilisation_ratio', 'bilateral_index']);

/** Ratios of two values that are followed like a metric, by the tests on whose pages they are offered. */
export const followedRatios = {
  dynamic_strength_index: ['imtp', 'countermovement-jump'],
  eccentric_utilisation_ratio: ['countermovement-jump', 'squat-jump'],
} as const satisfies Partial<Record<z.infer<typeof ratioId>, readonly string[]>>;

/** Where the error of a value comes from. */
export const errorOrigin = z.enum(['adopted', 'sessions', 'trials']);

/** One value a ratio is made of: the mean of the efforts of a session that count. */
export const ratioComponent = z.object({
  role: z.enum(['jump', 'isometric', 'countermovement', 'squat', 'both', 'left', 'right']),
  test: z.string(),
  metric: z.string(),
  title: z.string(),
  unit: z.string(),
  value: z.number(),
  session: z.string(),
  at: z.string(),
  /** Efforts behind the value, and all maximal ones. */
  n: z.number(),
  maximal: z.number(),
  /** Typical error in the unit: of an adopted study, of the sessions of athlete and squad, or of the trials of this session alone. */
  error: z.number().optional(),
  errorFrom: errorOrigin.optional(),
  /** The first session of the test. */
  familiarisation: z.boolean(),
});

/** What the value says, where its interval lies wholly on one side of every limit. */
export const ratioWord = z.enum([
  'strength',
  'balanced',
  'ballistic',
  'gain',
  'no-gain',
  'deficit',
  'facilitation',
  'undecided',
]);

export const ratioCaution = z.enum([
  /** A test was done for the first time. */
  'first-session',
  /** Days lie between the tests. */
  'days-apart',
  /** The arms were not held alike. */
  'arms-differ',
  /** A counting squat jump had a dip that was let pass. */
  'dip',
  /** The squat jump stands for the countermovement jump. */
  'squat-jump-used',
  /** The error is that of the trials of one session: from day to day it is larger. */
  'error-of-trials',
]);

/** A ratio of tests that belong together. */
export const ratio = z.object({
  /** The later of its sessions, and the days between the first and the last of them. */
  at: z.string(),
  days: z.number(),
  value: z.number(),
  error: z.number().optional(),
  interval: interval.optional(),
  word: ratioWord,
  /** Why it is undecided. */
  because: z.enum(['interval-crosses', 'isometric-low', 'no-error']).optional(),
  components: z.array(ratioComponent),
  cautions: z.array(ratioCaution),
});

/** Why there is no ratio, with what is missing or in the way. */
export const ratioLack = z.object({
  reason: z.enum(['test-missing', 'no-value', 'too-far-apart', 'other-method']),
  /** Tests without a session, or without an effort that counts. */
  tests: z.array(z.string()),
  /** Smallest number of days between the tests. */
  days: z.number().optional(),
  /** Of the tests named: how many sessions of results only there are, which are never mixed with values of this lab. */
  received: z.number(),
});

export const ratioView = z.object({
  id: ratioId,
  title: z.string(),
  unit: z.string(),
  formula: z.string(),
  source: z.string(),
  /** Values at which the word changes. */
  limits: z.array(z.number()),
  /** The newest one. */
  current: ratio.optional(),
  /** Why there is none. */
  lack: ratioLack.optional(),
  /** Sessions of a later day than the newest ratio, the newest of each test, and why they have none: nothing near enough is left, or as below. */
  newer: z.array(
    z.object({
      test: z.string(),
      session: z.string(),
      at: z.string(),
      reason: z.enum(['too-far-apart', 'other-method', 'no-value']),
    }),
  ),
  /** Every one, oldest first. */
  history: z.array(
    ratio
      .pick({ at: true, days: true, value: true, interval: true, word: true })
      .extend({ sessions: z.array(z.string()) }),
  ),
});

/** Mean force and velocity of the push-off with one load. */
export const profilePoint = z.object({
  /** kg; 0 without one. */
  load: z.number(),
  test: z.string(),
  session: z.string(),
  at: z.string(),
  /** Height of the jump, m. */
  height: z.number(),
  n: z.number(),
  /** N, m/s. */
  force: z.number(),
  velocity: z.number(),
});

export const profileFacts = z.object({
  at: z.string(),
  points: z.array(profilePoint),
  /** Push-off distance, m, and where it comes from. */
  pushOff: z.number(),
  pushOffFrom: z.enum(['given', 'plates']),
  /** N, m/s, W, N.s/m; absent where no line falls through the points. */
  line: z
    .object({
      f0: z.number(),
      v0: z.number(),
      powerMax: z.number(),
      slope: z.number(),
      r2: z.number(),
      accepted: z.boolean(),
      intervals: z.object({ f0: interval, v0: interval, powerMax: interval }),
    })
    .optional(),
});

export const profileLack = z.object({
  reason: z.enum(['no-loads', 'loads-not-written', 'too-few-loads', 'no-push-off', 'no-fit']),
  /** Loads there are, and how many it takes. */
  loads: z.number(),
  needed: z.number(),
  /** Sessions whose load nobody wrote down. */
  loadMissing: z.number(),
});

export const batteryView = z.object({
  person: z.object({ id: z.string(), name: z.string(), code: z.string() }),
  /** Last day that is looked at; absent: today. */
  on: z.string().optional(),
  /** Days that may lie between the tests of one ratio. */
  apart: z.number(),
  ratios: z.array(ratioView),
  profile: z.object({
    current: profileFacts.optional(),
    lack: profileLack.optional(),
    /** Earlier ones and this one, oldest first. */
    history: z.array(
      z.object({
        at: z.string(),
        loads: z.number(),
        f0: z.number(),
        v0: z.number(),
        powerMax: z.number(),
        r2: z.number(),
      }),
    ),
  }),
  /** Sessions up to the day, of any test, whether anything in them counts or not; and those after it. */
  sessions: z.number(),
  later: z.number(),
  /** The newest session of each test within those days before the newest of all, by its headline value. */
  tests: z.array(ratioComponent.omit({ role: true })),
});

export const batteryQuery = z.object({
  /** Last day to look at. */
  on: z.iso.date().optional(),
  apart: z.coerce.number().int().min(0).max(120).default(usualDaysApart),
  /** Push-off distance in cm: length of the stretched leg less height of the hip in the start position. Of the plates unless given. */
  pushOff: z.coerce.number().min(pushOffRange[0]).max(pushOffRange[1]).optional(),
});

export type RatioId = z.infer<typeof ratioId>;
export type RatioWord = z.infer<typeof ratioWord>;
export type RatioCaution = z.infer<typeof ratioCaution>;
export type RatioComponent = z.infer<typeof ratioComponent>;
export type Ratio = z.infer<typeof ratio>;
export type RatioLack = z.infer<typeof ratioLack>;
export type RatioView = z.infer<typeof ratioView>;
export type ProfilePoint = z.infer<typeof profilePoint>;
export type ProfileFacts = z.infer<typeof profileFacts>;
export type ProfileLack = z.infer<typeof profileLack>;
export type BatteryView = z.infer<typeof batteryView>;
export type BatteryQuery = z.infer<typeof batteryQuery>;
