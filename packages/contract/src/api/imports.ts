import { z } from 'zod';
import { trialResult, verdict } from '../result/trial.ts';
import { personDraft } from './people.ts';

/** A file the station has safely stored and recognised. The file itself is sent as the raw request body. */
export const upload = z.object({
  id: z.string(),
  sha256: z.string(),
  fileName: z.string(),
  bytes: z.number(),
  format: z.string(),
  candidates: z.array(
    z.object({ format: z.string(), match: z.enum(['yes', 'maybe', 'no', 'damaged']), reason: z.string() }),
  ),
  /** Trials that already hold this very recording. */
  duplicates: z.array(z.object({ trial: z.string(), words: z.string() })),
});

/** A file that was sent but not imported yet: unfinished work, offered again. */
export const receivedFile = z.object({
  id: z.string(),
  fileName: z.string(),
  bytes: z.number(),
  receivedAt: z.string(),
});

export const forceInput = z.object({
  from: z.object({ kind: z.enum(['channel', 'platform']), index: z.number().int().min(0) }),
  part: z.enum(['left', 'right', 'none', 'total']),
  unit: z.string().optional(),
  sign: z.union([z.literal(1), z.literal(-1)]).optional(),
  newtonsPerUnit: z.number().optional(),
  zero: z.number().optional(),
});

/** How a text file is to be read where detection needs help; every field optional. */
export const readingChoice = z.object({
  delimiter: z.string().max(3).optional(),
  decimal: z.enum(['.', ',']).optional(),
  time: z.union([z.string(), z.number()]).optional(),
  rate: z.number().positive().optional(),
  header: z.union([z.number(), z.literal('none')]).optional(),
  layout: z.enum(['channels', 'trials']).optional(),
  encoding: z.string().optional(),
});

export const mapping = z.object({
  reading: readingChoice,
  inputs: z.array(forceInput).min(1),
  test: z.string(),
  efforts: z.enum(['largest', 'all']),
  bodyWeight: z.number().positive().optional(),
});

/** A mapping kept under the signature of a file's header, offered when the same header comes again. */
export const importTemplate = z.object({ signature: z.string(), name: z.string(), mapping, lastUsed: z.string() });

export const importRequest = z.object({
  upload: z.string(),
  mapping,
  method: z.string().optional(),
  person: z.union([z.object({ id: z.string() }), z.object({ create: personDraft })]),
  /** RFC 3339; the recording's own time or now when absent. */
  startedAt: z.string().optional(),
  /** An existing session to add to. */
  session: z.string().optional(),
  onDuplicate: z.enum(['skip', 'keep-both']).default('skip'),
  remember: z.object({ signature: z.string(), name: z.string() }).optional(),
  by: z.string().min(1).max(100),
});

/** What an import would do (dry run) or did. */
export const importOutcome = z.object({
  dryRun: z.boolean(),
  recordings: z.number(),
  trials: z.array(
    z.object({
      label: z.string(),
      id: z.string().optional(),
      verdict,
      peakForce: z.number().optional(),
      /** In jump tests, in place of peak force. */
      headline: z.object({ metric: z.string(), value: z.number(), unit: z.string() }).optional(),
      unit: z.string(),
      reason: z.string().optional(),
      result: trialResult.optional(),
    }),
  ),
  session: z.string().optional(),
  skipped: z.array(z.object({ label: z.string(), why: z.string() })),
  notices: z.array(z.object({ code: z.string(), message: z.string() })),
});

export type Upload = z.infer<typeof upload>;
export type ReceivedUpload = z.infer<typeof receivedFile>;
export type Mapping = z.infer<typeof mapping>;
export type ImportTemplate = z.infer<typeof importTemplate>;
export type ImportRequest = z.infer<typeof importRequest>;
export type ImportOutcome = z.infer<typeof importOutcome>;
