import { z } from 'zod';
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
  rate: z.object({
    promised: z.number(),
    /** Measured against the station's clock; absent in the first seconds. */
    measured: z.number().optional(),
    uncertainty: z.number().optional(),
    /** True when they differ by more than 0.5 %. */
    differs: z.boolean(),
  }),
  channels: z.array(rigChannel),
  /** Counts since the rig was opened. */
  counts: z.object({
    samples: z.number(),
    gaps: z.number(),
    missing: z.number(),
    doubled: z.number(),
    late: z.number(),
    checksum: z.number(),
    unreadable: z.number(),
  }),
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
});

export const sourceCheckRequest = z.object({ description: z.unknown() });

/** What is wrong with a description, field by field, before any device is touched. */
export const sourceCheck = z.object({
  ok: z.boolean(),
  faults: z.array(z.object({ path: z.string(), code: z.string(), words: z.string(), next: z.string() })),
});

export const sourceProbeRequest = z.object({
  description: z.unknown(),
  /** How long to listen, s. */
  seconds: z.number().min(0.2).max(10).default(2),
});

/** What came from a source while it was listened to: bytes, rows, values. Nothing is stored. */
export const sourceProbe = z.object({
  state: rigState,
  words: z.string(),
  samples: z.number(),
  missing: z.number(),
  faults: z.number(),
  measuredRate: z.number().optional(),
  /** The first bytes, hexadecimal, at most 512; absent where the source has none (virtual, replay). */
  bytes: z.string().optional(),
  channels: z.array(
    z.object({
      name: z.string(),
      unit: z.string(),
      mean: z.number(),
      min: z.number(),
      max: z.number(),
      sd: z.number(),
      last: z.array(z.number()),
    }),
  ),
  /** Layouts that would fit the bytes, best first. */
  candidates: z.array(z.object({ description: sourceDescription, words: z.string() })),
});

/** Ports of this machine that a serial source could use. */
export const serialPort = z.object({
  path: z.string(),
  serialNumber: z.string().optional(),
  maker: z.string().optional(),
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
export type SourceProbe = z.infer<typeof sourceProbe>;
