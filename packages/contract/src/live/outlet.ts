import { z } from 'zod';

/** What a lab lets leave as streams for other programs; decided at the station. */
export const outletSettings = z.object({
  /** Other machines may read too; else only programs on the station's own machine. */
  network: z.boolean(),
  /** The marks name the code of who is on the rig. Never a name. */
  athleteCode: z.boolean(),
});

/** One stream that is offered. */
export const offeredStream = z.object({
  name: z.string(),
  type: z.string(),
  sourceId: z.string(),
  channels: z.array(z.string()),
  /** Hz; 0: its samples come when they come. */
  rate: z.number(),
  /** TCP port its samples are read from. */
  port: z.number(),
  /** Who reads it just now. */
  receivers: z.number(),
});

/** Whether a rig offers its forces and marks to other programs, and how that stands. */
export const rigOutlet = z.object({
  on: z.boolean(),
  /** Empty while the rig is closed, or the offer is off. */
  streams: z.array(offeredStream),
  /** Why nothing can be offered though it is on. */
  problem: z.string().optional(),
});

export type OutletSettings = z.infer<typeof outletSettings>;
export type RigOutlet = z.infer<typeof rigOutlet>;
