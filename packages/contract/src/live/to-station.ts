import { z } from 'zod';
import { livePhase } from './floor.ts';
import { liveRole } from './to-client.ts';

const id = z.string().min(1).max(100);

/** First message of a connection, within 5 s. A device keeps its id, so that it is known again after a reload. */
export const helloMessage = z.object({
  type: z.literal('hello'),
  protocol: z.literal(1),
  lab: z.enum(['lab', 'example']),
  role: liveRole,
  device: z.object({ id: z.string().regex(/^[A-Za-z0-9_-]{1,64}$/), name: z.string().min(1).max(100) }),
  /** Who signs what is done from this device. */
  by: z.string().min(1).max(100).optional(),
});

/** Takes the controls, from whoever holds them; one message is enough, and the other device is told. */
export const takeControlsMessage = z.object({ type: z.literal('take-controls') });
/** Gives the controls back: nobody holds them then. */
export const releaseControlsMessage = z.object({ type: z.literal('release-controls') });

/**
 * What can be done to a turn.
 * `begin` puts an entry on a rig. `advance` goes on to the next phase where a person decides that (set up is done). `cue` starts
 * the count. `arm` allows hands-free cues in this turn, `disarm` takes that back. `skip` leaves out the rest, the submaximal
 * effort that is due, or what is left of the maximal ones. `zero` takes the zero again. `finish` ends the turn. `hold` freezes
 * it and voids a running count, `resume` goes on. `abort` ends an effort or a count at once. `pain` does that too, is recorded,
 * and blocks further maximal efforts today until a named person releases it. `judge` lets the last effort count, or not.
 */
export const commandKind = z.enum([
  'begin',
  'advance',
  'cue',
  'arm',
  'disarm',
  'skip',
  'zero',
  'finish',
  'hold',
  'resume',
  'abort',
  'pain',
  'judge',
  'blank-wall',
  'show-wall',
]);

/**
 * A command with what it was meant for. It is refused when turn, trial or phase are not (or no longer) those of the rig, and
 * when it is older than a second: a command is never carried out late. `abort` and `pain` only need the right turn, and any
 * operator may give them; so may the station itself.
 */
export const commandMessage = z.object({
  type: z.literal('command'),
  /** Made by the client; comes back in `accepted` or `refused`. */
  id,
  kind: commandKind,
  rig: id,
  /** Turn the command is meant for, from `rigFloor`; only `begin` and the two of the wall need none. */
  turn: id.optional(),
  /** Effort it is meant for, from `rigFloor`. */
  trial: id.optional(),
  /** Phase it is meant for: what the screen showed. */
  phase: livePhase,
  /** Station clock when the key was pressed, as this device knows it from its probes, ms. */
  at: z.number(),
  expires: z.literal(1000),
  /** Of `begin`: whom to put on the rig; absent: who is next. */
  entry: id.optional(),
  /** Of `judge`; `note` is the reason then. */
  decision: z.enum(['counts', 'does-not-count']).optional(),
  note: z.string().max(500).optional(),
});

/** The answer to a question: one of its choices, by id. Needs the controls. */
export const answerMessage = z.object({ type: z.literal('answer'), id, question: id, choice: id });

/** How a device gave a cue. */
export const cueWay = z.enum(['tone', 'voice', 'flash']);

/**
 * When a cue was really heard or seen, by the device's own clock, ms: the delay of its output is in it. The station converts with
 * the device's last probe and keeps all of it with the trial.
 */
export const cueSoundedMessage = z.object({
  type: z.literal('cue-sounded'),
  cue: id,
  at: z.number(),
  /** Absent: a device that says no more than the time. */
  way: cueWay.optional(),
  /** Delay of the output that is contained in `at`, ms: from the start the device asked for to what is heard. */
  delay: z.number().min(0).max(5000).optional(),
  /** How the delay is known: from the time stamps of the output, as the browser states it, or not at all. */
  delayFrom: z.enum(['measured', 'stated', 'unknown']).optional(),
});

/**
 * Four time stamps: the device's clock at sending (`t0`), the station's at receipt and sending (`t1`, `t2`), the device's at
 * receipt (`t3`). offset = ((t1 - t0) + (t2 - t3)) / 2, round trip = (t3 - t0) - (t2 - t1). With `last` the device reports its
 * own result, so that the station can place its times.
 */
export const probeMessage = z.object({
  type: z.literal('probe'),
  id,
  t0: z.number(),
  last: z.object({ offset: z.number(), roundTrip: z.number().min(0) }).optional(),
});

/** Everything a client may send. */
export const toStation = z.discriminatedUnion('type', [
  helloMessage,
  takeControlsMessage,
  releaseControlsMessage,
  commandMessage,
  answerMessage,
  cueSoundedMessage,
  probeMessage,
]);

export type ToStation = z.infer<typeof toStation>;
export type Command = z.infer<typeof commandMessage>;
export type CommandKind = z.infer<typeof commandKind>;
export type Hello = z.infer<typeof helloMessage>;

/** Address of the live connection, beside the HTTP interface. */
export const livePath = '/api/live';
