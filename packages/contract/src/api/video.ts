import { z } from 'zod';

const id = z.string().regex(/^[A-Za-z0-9_-]{8,64}$/);

/**
 * What a lab does with videos. Kept until somebody removes them when `keepDays` is absent; else removed that many days after they
 * were filmed. People under 18 are never filmed without a consent that is in force; with `never` not even then.
 */
export const videoSettings = z.object({
  keepDays: z.number().int().min(1).max(3650).optional(),
  minors: z.enum(['with-consent', 'never']).default('with-consent'),
});

/**
 * The station's clock as the filming device knew it: `offset` is station minus device, wrong by at most `uncertainty`, ms; `at` is
 * the device's clock when it was worked out.
 */
export const clockTie = z.object({ at: z.number(), offset: z.number(), uncertainty: z.number().min(0) });

/** What a device says when it begins to film. The id is its own, so that asking twice makes one video. */
export const videoDraft = z.object({
  rig: z.string().min(1).max(64),
  /** Turn the device saw on its screen; filming is refused when the rig is at another one. */
  turn: z.string().min(1).max(200),
  device: z.string().min(1).max(100),
  mediaType: z.string().regex(/^video\/(webm|mp4)(;\s*codecs="?[\w.,\s]+"?)?$/),
  /** Device clock when the recorder was told to start, ms. */
  startedAt: z.number(),
});

/**
 * What travels with a piece of the file, so that a device that dies leaves everything needed behind: device times at which frames
 * were captured since the piece before, ms, and the clock.
 */
export const chunkHead = z.object({
  frames: z.array(z.number()).max(5000),
  /** With the last piece: device clock when the recorder was told to stop, ms. */
  stoppedAt: z.number().optional(),
  clock: clockTie.optional(),
});

/** `receiving`: pieces still arrive. `stored`: whole and seekable. `dropped`: removed; what it was stays known. `unreadable`: no picture in it. */
export const videoState = z.enum(['receiving', 'stored', 'dropped', 'unreadable']);

/** What a device that uploads needs to know. */
export const videoUpload = z.object({
  id: z.string(),
  state: videoState,
  /** Numbers of the pieces that are safe on disk. */
  received: z.array(z.number()),
});

export const videoFinish = z.object({ chunks: z.number().int().min(0).max(100_000) });

/** A video beside its trial. Times in seconds. */
export const videoView = z.object({
  id: z.string(),
  revision: z.number(),
  state: videoState,
  device: z.string(),
  filmedAt: z.string(),
  mediaType: z.string(),
  bytes: z.number(),
  width: z.number().optional(),
  height: z.number().optional(),
  duration: z.number().optional(),
  /** Instants of the frames from the start of the video, ascending. */
  frames: z.array(z.number()),
  /**
   * Where the video lies beside the curve: recording time = `start` + `nudge` + `rate` x video time; `start` may be wrong by
   * `uncertainty`. Absent where the clocks were never tied.
   */
  sync: z.object({ start: z.number(), rate: z.number().positive(), uncertainty: z.number() }).optional(),
  /** Moved by hand; positive: the picture belongs to a later instant of the curve. */
  nudge: z.number(),
  /** What the nudge was before its last change; absent when it was never changed. */
  nudgeBefore: z.number().optional(),
  /** Day after which it is removed; absent: kept. */
  keptUntil: z.string().optional(),
  dropped: z.object({ at: z.string(), words: z.string() }).optional(),
});

/** Videos of a trial, with those on their way to it (`receiving`), or why there is none to see. */
export const trialVideos = z.object({
  videos: z.array(videoView),
  /** Present where filming this person is not allowed. */
  refused: z.string().optional(),
});

/** Largest nudge, s. */
export const largestNudge = 2;

export const nudgeDraft = z.object({
  nudge: z.number().min(-largestNudge).max(largestNudge),
  /** The revision the change was made from. */
  revision: z.number(),
  by: z.string().min(1).max(100),
});

export const videoDrop = z.object({ reason: z.string().min(1).max(500), by: z.string().min(1).max(100) });

export const videoId = id;

export type ChunkHead = z.infer<typeof chunkHead>;
export type ClockTie = z.infer<typeof clockTie>;
export type TrialVideos = z.infer<typeof trialVideos>;
export type VideoDraft = z.infer<typeof videoDraft>;
export type VideoSettings = z.infer<typeof videoSettings>;
export type VideoUpload = z.infer<typeof videoUpload>;
export type VideoView = z.infer<typeof videoView>;
