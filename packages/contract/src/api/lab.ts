import { z } from 'zod';

/** Each lab is a data folder of its own: `lab` is the user's, `example` is Fernwater, marked as demo everywhere. */
export const labId = z.enum(['lab', 'example']);

export const lab = z.object({
  id: labId,
  name: z.string(),
  demo: z.boolean(),
  exists: z.boolean(),
  folder: z.string(),
  people: z.number(),
  sessions: z.number(),
  trials: z.number(),
  /** Present while the example is being built: sessions made so far, and how many there will be. */
  progress: z.object({ done: z.number(), total: z.number() }).optional(),
});

export const stationInfo = z.object({
  application: z.string(),
  version: z.string(),
  engine: z.enum(['sqlite', 'postgres']),
  labs: z.array(lab),
});

export type LabId = z.infer<typeof labId>;
export type Lab = z.infer<typeof lab>;
export type StationInfo = z.infer<typeof stationInfo>;
