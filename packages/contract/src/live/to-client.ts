import { z } from 'zod';
import { day } from './day.ts';
import { forceTelling, liveVerdict, rigFloor } from './floor.ts';
import { rigView } from './rig.ts';
import { wallEnvelope, wallState } from './wall.ts';

/** Version of the messages; a client that does not know it should stop and say so. */
export const liveProtocol = 1;

export const liveRole = z.enum(['operator', 'wall', 'viewer']);

const controls = z.object({
  /** Id of the device that holds the controls; absent: nobody. */
  holder: z.string().optional(),
  name: z.string().optional(),
  since: z.string().optional(),
});

/** Something people should know; it stands until `alert-over`. */
export const alertView = z.object({
  id: z.string(),
  severity: z.enum(['note', 'warning', 'alarm']),
  code: z.string(),
  /** What happened. */
  words: z.string(),
  /** What to do. */
  next: z.string(),
  rig: z.string().optional(),
  /** Times the same was raised. */
  count: z.number(),
});

/** Something only a person can decide; it stands until `question-over`. */
export const questionView = z.object({
  id: z.string(),
  rig: z.string(),
  turn: z.string().optional(),
  code: z.string(),
  words: z.string(),
  choices: z.array(z.object({ id: z.string(), words: z.string() })).min(1),
});

/** The whole state; the first message after `hello`, and again after `behind`. */
export const snapshotMessage = z.object({
  type: z.literal('snapshot'),
  protocol: z.literal(liveProtocol),
  sequence: z.number(),
  /** Station clock: monotonic ms, and the wall clock beside it. */
  clock: z.object({ monotonic: z.number(), wall: z.string() }),
  lab: z.string(),
  you: z.object({ device: z.string(), name: z.string(), role: liveRole }),
  controls,
  /** The wall shows nothing, by command. */
  wallBlank: z.boolean(),
  day: day.optional(),
  rigs: z.array(rigView),
  floors: z.array(rigFloor),
  alerts: z.array(alertView),
  questions: z.array(questionView),
  /** The last verdict of each rig, while it stands. */
  verdicts: z.array(liveVerdict),
});

const numbered = { sequence: z.number() };

/** A rig has changed: state, counts, zero, disk. Sent every two seconds too. */
export const rigMessage = z.object({ type: z.literal('rig'), ...numbered, rig: rigView });

/** The open day has changed; absent: there is none. */
export const dayMessage = z.object({ type: z.literal('day'), ...numbered, day: day.optional() });

/** What goes on at a rig has changed: phase, turn, effort, or what to do now. */
export const phaseMessage = z.object({ type: z.literal('phase'), ...numbered, floor: rigFloor });

/** The wall was blanked or shown again. */
export const wallBlankMessage = z.object({ type: z.literal('wall-blank'), ...numbered, blank: z.boolean() });

/**
 * Values now, about 10 times a second: means over the last 100 ms, after calibration and zero. Where `forces` is not `total` the
 * sides and the channels are left out, because they add up to it.
 */
export const liveValuesMessage = z.object({
  type: z.literal('live'),
  ...numbered,
  rig: z.string(),
  sample: z.number(),
  forces: forceTelling,
  total: z.number(),
  left: z.number().optional(),
  right: z.number().optional(),
  /** Right foot, % of left and right; absent with next to nothing on them. */
  shareRight: z.number().optional(),
  unit: z.string(),
  channels: z.array(z.object({ name: z.string(), value: z.number() })),
});

/**
 * The curve at screen rate: smallest and largest force of each run of `bucket` samples, so that a peak never vanishes. Buckets
 * lie on a fixed grid (`first` is a multiple of `bucket`) and follow one another; a missing sample gives null for its bucket.
 */
export const envelopeMessage = z.object({
  type: z.literal('envelope'),
  ...numbered,
  rig: z.string(),
  /** Sample index of the first bucket. */
  first: z.number(),
  /** Samples a bucket. */
  bucket: z.number(),
  rate: z.number(),
  unit: z.string(),
  forces: forceTelling,
  /** min, max, min, max, ...; rounded to 0.1. */
  total: z.array(z.number().nullable()),
  left: z.array(z.number().nullable()).optional(),
  right: z.array(z.number().nullable()).optional(),
});

/** Whole seconds are counted down. */
export const countdownMessage = z.object({
  type: z.literal('countdown'),
  ...numbered,
  rig: z.string(),
  turn: z.string().optional(),
  /** `count` is the three, two, one before the cue; `away`: how long a turn waits for someone who stepped off. */
  of: z.enum(['zero', 'stand-still', 'count', 'rest', 'away']),
  /** Whole seconds left, counted in samples of the rig. Sent when the number changes. */
  left: z.number(),
  /** True when it went up again: something disturbed what was counted. */
  restarted: z.boolean(),
});

/** A sound or word that is due now. Play it at once or not at all: after `expires` ms it must not be heard any more. */
export const cueMessage = z.object({
  type: z.literal('cue'),
  ...numbered,
  id: z.string(),
  rig: z.string(),
  turn: z.string(),
  trial: z.string().optional(),
  sound: z.enum(['three', 'two', 'one', 'go', 'relax', 'stop', 'attention']),
  words: z.string(),
  /** The protocol has the words said aloud, whatever this device is set to. */
  spoken: z.boolean().optional(),
  /** Station clock when it was given, ms. */
  at: z.number(),
  expires: z.literal(1000),
});

/** An effort was judged. Comes once for each. */
export const verdictMessage = z.object({ type: z.literal('verdict'), ...numbered, verdict: liveVerdict });

/** A new alert, or one that came again. */
export const alertMessage = z.object({ type: z.literal('alert'), ...numbered, alert: alertView });
/** An alert does not stand any more. */
export const alertOverMessage = z.object({ type: z.literal('alert-over'), ...numbered, id: z.string() });

/** A question to be answered by whoever holds the controls. */
export const questionMessage = z.object({ type: z.literal('question'), ...numbered, question: questionView });
/** A question was answered, or does not stand any more. */
export const questionOverMessage = z.object({
  type: z.literal('question-over'),
  ...numbered,
  id: z.string(),
  choice: z.string().optional(),
});

/** The recording light, four times a second: what is safe on disk. */
export const confirmedMessage = z.object({
  type: z.literal('confirmed'),
  ...numbered,
  rig: z.string(),
  recording: z.boolean(),
  /** Confirmed since the rig was opened. */
  samples: z.number(),
  bytes: z.number(),
  /** Age of the newest confirmed sample, ms. */
  age: z.number(),
});

/** The controls went to another device, or back. */
export const controlsMessage = z.object({ type: z.literal('controls'), ...numbered, controls });

/** Messages were skipped because this client did not read fast enough; a snapshot follows. Marks and verdicts are not skipped. */
export const behindMessage = z.object({ type: z.literal('behind'), ...numbered, skipped: z.number() });

/** A command or an answer was carried out. */
export const acceptedMessage = z.object({ type: z.literal('accepted'), ...numbered, id: z.string() });

/** A command, an answer or a message that was not done, and why. */
export const refusedMessage = z.object({
  type: z.literal('refused'),
  ...numbered,
  id: z.string().optional(),
  code: z.string(),
  words: z.string(),
  next: z.string(),
});

/** Answer to `probe`: `t0` as sent, then the station's clock at receipt and at sending, ms. */
export const probeAnswer = z.object({
  type: z.literal('probe'),
  ...numbered,
  id: z.string(),
  t0: z.number(),
  t1: z.number(),
  t2: z.number(),
});

/** Everything the station sends to operators and viewers. */
export const toOperator = z.discriminatedUnion('type', [
  snapshotMessage,
  rigMessage,
  dayMessage,
  phaseMessage,
  wallBlankMessage,
  liveValuesMessage,
  envelopeMessage,
  countdownMessage,
  cueMessage,
  verdictMessage,
  alertMessage,
  alertOverMessage,
  questionMessage,
  questionOverMessage,
  confirmedMessage,
  controlsMessage,
  behindMessage,
  acceptedMessage,
  refusedMessage,
  probeAnswer,
]);

/** A cue as the wall hears it: no ids of people, no values. */
export const wallCue = z.strictObject({
  type: z.literal('cue'),
  sequence: z.number(),
  id: z.string(),
  rig: z.string(),
  sound: cueMessage.shape.sound,
  words: z.string(),
  at: z.number(),
  expires: z.literal(1000),
});

export const wallCountdown = z.strictObject({
  type: z.literal('countdown'),
  sequence: z.number(),
  rig: z.string(),
  of: countdownMessage.shape.of,
  left: z.number(),
  restarted: z.boolean(),
});

/** Everything the station sends to a wall. Strict: a field that is not listed here cannot be sent. */
export const toWall = z.discriminatedUnion('type', [
  wallState,
  wallEnvelope,
  wallCue,
  wallCountdown,
  z.strictObject(behindMessage.shape),
  z.strictObject(probeAnswer.shape),
  z.strictObject(refusedMessage.shape),
]);

export type ToOperator = z.infer<typeof toOperator>;
export type ToWall = z.infer<typeof toWall>;
export type Snapshot = z.infer<typeof snapshotMessage>;
export type Envelope = z.infer<typeof envelopeMessage>;
export type Cue = z.infer<typeof cueMessage>;
export type Confirmed = z.infer<typeof confirmedMessage>;
export type Controls = z.infer<typeof controls>;
export type AlertView = z.infer<typeof alertView>;
export type QuestionView = z.infer<typeof questionView>;
export type LiveRole = z.infer<typeof liveRole>;
