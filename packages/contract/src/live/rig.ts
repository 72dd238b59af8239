import { z } from 'zod';
import { rigCheckDue } from './rig-check.ts';
import { rigVerdict } from './rig-check-result.ts';
import { sourceDescription } from './source-description.ts';

/** A kept source description. */
export const storedSource = z.object({
  id: z.string(),
  revision: z.number(),
  name: z.string(),
  description: sourceDescription,
});

/** Rigs are told apart by letter and shape, never by colour alone. */
export const rigShape = z.enum(['circle', 'square', 'triangle', 'diamond']);

/** What a person enters of a rig. */
export const rigDraft = z.object({
  name: z.string().min(1).max(100),
  letter: z.string().regex(/^[A-Z]$/, 'one capital letter'),
  shape: rigShape,
  /** Source descriptions that form it: one, or a plate each. */
  sources: z.array(z.string()).min(1).max(8),
  notes: z.string().max(10_000).default(''),
});

/**
 * `closed`: its sources are not running. `starting`: they are being opened. `measuring`: samples arrive. `quiet`: open, but no
 * samples for 500 ms. `lost`: a device is gone; it is taken up again when it returns. `faulty`: something is wrong that time
 * does not mend (another device, another rate); see `words`.
 */
export const rigState = z.enum(['closed', 'starting', 'measuring', 'quiet', 'lost', 'faulty']);

export const rigChannel = z.object({
  name: z.string(),
  plate: z.string(),
  side: z.enum(['left', 'right', 'none']),
  axis: z.string(),
  unit: z.string(),
  /** Mean of the last unloaded second, in `unit`; absent before the first zero. */
  zero: z.number().optional(),
  /** SD of the last unloaded second, in `unit`: noise at rest. */
  noise: z.number().optional(),
  /** The last second as it came, whatever stands on the plate, its zero not taken off; absent where nothing came. */
  second: z
    .object({
      mean: z.number(),
      sd: z.number(),
      /** Where the mains stand out of the noise: Hz, and amplitude in `unit`. */
      mains: z.object({ frequency: z.number(), amplitude: z.number() }).optional(),
      /** A raw value stood at an end of the range, or one of a signal it is made of; absent where no range is described. */
      saturated: z.boolean().optional(),
    })
    .optional(),
});

/** What came and what did not. */
export const streamCounts = z.object({
  samples: z.number(),
  gaps: z.number(),
  missing: z.number(),
  doubled: z.number(),
  late: z.number(),
  /** Packets that came out of order and were put in order. */
  swapped: z.number(),
  checksum: z.number(),
  unreadable: z.number(),
});

/** A rig as screens show it. */
export const rigView = z.object({
  id: z.string(),
  revision: z.number(),
  name: z.string(),
  letter: z.string(),
  shape: rigShape,
  notes: z.string(),
  sources: z.array(z.object({ id: z.string(), name: z.string(), state: rigState, words: z.string() })),
  state: rigState,
  /** The state in one sentence. */
  words: z.string(),
  /** Present where plates and athletes are only played; `speed` times as fast as life. */
  virtual: z.object({ speed: z.number() }).optional(),
  /** Serial number or address, as the device or its description tells it. */
  device: z.string().optional(),
  rate: z.object({
    promised: z.number(),
    /** Measured against the station's clock; absent in the first seconds. */
    measured: z.number().optional(),
    uncertainty: z.number().optional(),
    /** True when they differ by more than 0.5 %. */
    differs: z.boolean(),
  }),
  channels: z.array(rigChannel),
  /** Age of the newest sample, ms; absent before the first. */
  lastSample: z.number().optional(),
  /** Counts since the rig was opened. */
  counts: streamCounts,
  zero: z.object({
    /** When it was taken last; absent: never since the rig was opened. */
    at: z.string().optional(),
    held: z.boolean(),
    words: z.string(),
  }),
  disk: z.object({
    bytesPerSecond: z.number(),
    freeBytes: z.number().optional(),
    /** Seconds until full at the present rate. */
    secondsLeft: z.number().optional(),
    warning: z.boolean(),
  }),
  clock: z.object({
    /** Whether the stream's clock has been tied to the station's in the last 15 s. */
    evidence: z.enum(['good', 'old', 'none']),
    /** Of a rig of several sources: largest residual of their alignment, s. */
    residual: z.number().optional(),
    words: z.string(),
  }),
  /** Checks with known masses: the newest, and when the next is due. */
  check: z
    .object({
      standing: rigCheckDue.shape.standing,
      /** When the newest was made, and what it said. */
      at: z.string().optional(),
      verdict: rigVerdict.optional(),
      /** When the next is due. */
      due: z.string().optional(),
      /** Largest load of the newest, N. */
      checkedTo: z.number().optional(),
      /** The newest says no, and its correction was not adopted. */
      failed: z.boolean(),
      /** Plates that are put right by a correction. */
      corrected: z.array(z.string()),
    })
    .optional(),
});

export const sourceCheckRequest = z.object({ description: z.unknown() });

/** What is wrong with a description, field by field, before any device is touched. */
export const sourceCheck = z.object({
  ok: z.boolean(),
  faults: z.array(z.object({ path: z.string(), code: z.string(), words: z.string(), next: z.string() })),
});

/** A source that is listened to while it is being described; the same id goes on listening, silence of a few seconds ends it. */
export const listenRequest = z.object({ description: z.unknown() });

export const probeRequest = listenRequest.extend({
  /** How long to listen, s. */
  seconds: z.number().min(0.2).max(10).default(2),
});

/** What comes from a source that is listened to: bytes, frames, values, layouts that would fit. Nothing is stored. */
export const sourceListening = z.object({
  /** `waiting` for the device or a file, `silent`: the link stands and nothing comes, `bytes` that are no samples (yet). */
  state: z.enum(['opening', 'waiting', 'silent', 'bytes', 'measuring', 'down']),
  words: z.string(),
  /** What keeps it from measuring, by a permanent code. */
  trouble: z.object({ code: z.string(), means: z.string(), next: z.string() }).optional(),
  /** Since listening began, s. */
  seconds: z.number(),
  /** Absent where a source has no bytes (virtual, replay, folder). `last`: hexadecimal, at most 512 bytes. */
  bytes: z.object({ received: z.number(), perSecond: z.number(), last: z.string() }).optional(),
  /** Lines or frames among the last 16384 bytes, and how many of them can be read (frames: have the right checksum). */
  pieces: z.object({ kind: z.enum(['lines', 'frames']), found: z.number(), right: z.number() }).optional(),
  counts: streamCounts,
  rate: z.object({ promised: z.number(), measured: z.number(), uncertainty: z.number() }).optional(),
  /** Each channel over the last two seconds, in its unit; `raw` and `last` are the newest value. */
  channels: z.array(
    z.object({
      name: z.string(),
      unit: z.string(),
      raw: z.number(),
      last: z.number(),
      mean: z.number(),
      min: z.number(),
      max: z.number(),
      sd: z.number(),
      /** A value stood at an end of the range, its own or that of a signal it is made of. */
      saturated: z.boolean(),
      /** A calibration matrix made it of other channels. */
      made: z.boolean(),
    }),
  ),
  /** Layouts that would fit the bytes, best first; `fits` is the share of the bytes they read. */
  candidates: z.array(
    z.object({ description: sourceDescription, fits: z.number(), words: z.string(), reasons: z.array(z.string()) }),
  ),
  /** What is wrong with the description, field by field. */
  faults: sourceCheck.shape.faults,
});

/** What can be made to go wrong on virtual plates, to see how it is caught. */
export const rigTrouble = z.enum([
  'lost',
  'doubled',
  'late',
  'swapped',
  'counter-wrap',
  'stall',
  'unplug',
  'saturation',
  'drift',
  'wrong-rate',
  'right-rate',
]);

export const troubleDraft = z.object({ trouble: rigTrouble, by: z.string().min(1).max(100) });

/** It begins at this sample, a moment after it was asked for. */
export const troubleBegun = z.object({ trouble: rigTrouble, from: z.number() });

/** One state of a source description: by whom and when it became so. */
export const sourceRevision = z.object({
  number: z.number(),
  at: z.string(),
  by: z.string(),
  description: sourceDescription,
});

/** Ports of this machine that a serial source could use. */
export const serialPort = z.object({
  path: z.string(),
  serialNumber: z.string().optional(),
  maker: z.string().optional(),
});

/** Where streams of the open lab streaming layer are sought. */
export const streamSearch = z.object({
  /** One machine; absent: the own network and this machine. */
  host: z.string().min(1).max(253).optional(),
  /** Its port for queries, where it is none of the usual ones. */
  port: z.coerce.number().int().min(1).max(65_535).optional(),
});

/** Streams that answered within a second or two. */
export const foundStreams = z.object({
  streams: z.array(
    z.object({
      name: z.string(),
      type: z.string(),
      /** Empty where the sender has none: it is not known again for sure after it began anew. */
      sourceId: z.string(),
      hostname: z.string(),
      address: z.string(),
      /** Hz; 0: samples come when they come. */
      rate: z.number(),
      format: z.string(),
      /** One text a channel; empty where the sender does not name them. */
      labels: z.array(z.string()),
      channelCount: z.number(),
      /** A description that reads it, for a person to look at; absent where no rig can measure with it. */
      description: sourceDescription.optional(),
      /** Why no rig can measure with it. */
      words: z.string().optional(),
    }),
  ),
  /** Why nobody could be asked. */
  problem: z.string().optional(),
});

export const keepRecent = z.object({
  /** The last seconds of the buffer, at most 60. */
  seconds: z.number().positive().max(60),
  note: z.string().max(500).default(''),
  by: z.string().min(1).max(100),
});

export const keptRecent = z.object({
  sha256: z.string(),
  fileName: z.string(),
  samples: z.number(),
  seconds: z.number(),
});

export type StoredSourceView = z.infer<typeof storedSource>;
export type RigDraft = z.infer<typeof rigDraft>;
export type RigState = z.infer<typeof rigState>;
export type RigView = z.infer<typeof rigView>;
export type SourceCheck = z.infer<typeof sourceCheck>;
export type RigTrouble = z.infer<typeof rigTrouble>;
export type SourceRevision = z.infer<typeof sourceRevision>;
export type FoundStreams = z.infer<typeof foundStreams>;
export type SourceListening = z.infer<typeof sourceListening>;
