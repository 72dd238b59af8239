import { z } from 'zod';
import { labId } from '../api/lab.ts';
import { liveRole } from '../live/to-client.ts';

const name = z.string().trim().min(1).max(60);
const by = z.string().min(1).max(100);

/** A tablet, wall screen or phone that was paired with one lab. What it may do follows from its role alone. */
export const pairedDevice = z.object({
  id: z.string(),
  name,
  role: liveRole,
  pairedAt: z.string(),
  /** Day it was last seen, `2026-01-14`. */
  lastSeen: z.string(),
  /** Live connections it has at this moment. */
  connections: z.number(),
  /** Present once it was taken off; such a device stays in the list, so that the audit trail keeps its name. */
  revokedAt: z.string().optional(),
});

/** A one-time code that nobody has used yet; the code itself is told only once, to the one who made it. */
export const waitingCode = z.object({ id: z.string(), name, role: liveRole, expiresAt: z.string() });

export const deviceList = z.object({
  devices: z.array(pairedDevice),
  waiting: z.array(waitingCode),
  /** Wrong codes since the station started. */
  wrongCodes: z.number(),
});

export const codeDraft = z.object({ name, role: liveRole, by });

/** `code` is ten signs without the ones that are mistaken for each other (I, L, O, U); `shown` has them in two groups. */
export const madeCode = waitingCode.extend({ code: z.string(), shown: z.string() });

export const deviceRename = z.object({ name, by });
export const signedBy = z.object({ by });

/** Who asks, as the station sees it. */
export const accessView = z.object({
  /** `station`: the machine itself, which may do everything. `network`: another machine. */
  place: z.enum(['station', 'network']),
  /** Absent on another machine that is not paired (or not any more). */
  device: z.object({ id: z.string(), name: z.string(), role: liveRole, lab: labId }).optional(),
  /** This device was paired once and then taken off. */
  revoked: z.boolean().optional(),
  /**
   * Method and path of every address this device may use, as `PUT /api/labs/:lab/days/:id`: screens offer nothing else. Absent on the
   * machine itself, which may use all. The station decides anew for every request.
   */
  may: z.array(z.string()).optional(),
});

/** As typed or scanned; case, blanks and dashes do not matter. */
export const pairRequest = z.object({ code: z.string().min(1).max(100) });

export type PairedDevice = z.infer<typeof pairedDevice>;
export type WaitingCode = z.infer<typeof waitingCode>;
export type DeviceList = z.infer<typeof deviceList>;
export type CodeDraft = z.infer<typeof codeDraft>;
export type MadeCode = z.infer<typeof madeCode>;
export type AccessView = z.infer<typeof accessView>;
