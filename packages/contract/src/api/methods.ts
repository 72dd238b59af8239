import { z } from 'zod';

export const methodSummary = z.object({
  id: z.string(),
  name: z.string(),
  version: z.number(),
  sha256: z.string(),
  summary: z.string(),
  builtIn: z.boolean(),
  /** The lab's method: new results are made with it. */
  current: z.boolean(),
  /** Made from another one for a test or a protocol, not to be chosen by itself. */
  variant: z.boolean(),
});

export const auditEntry = z.object({
  sequence: z.number(),
  at: z.string(),
  who: z.string(),
  /** The paired device it was done from; absent: the station itself. */
  device: z.string().optional(),
  action: z.string(),
  subject: z.string(),
  details: z.record(z.string(), z.unknown()),
  hash: z.string(),
});

export const auditPage = z.object({
  total: z.number(),
  intact: z.boolean(),
  problems: z.array(z.string()),
  lastHash: z.string(),
  entries: z.array(auditEntry),
});

export type MethodSummary = z.infer<typeof methodSummary>;
export type AuditPage = z.infer<typeof auditPage>;
