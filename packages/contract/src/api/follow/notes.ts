import { z } from 'zod';

const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);

export const athleteNoteKind = z.enum(['remark', 'injury', 'target', 'position']);

/** What to reach: a value of a metric in its unit. */
export const noteTarget = z.object({ metric: z.string(), value: z.number(), unit: z.string() });

/** Something written down of an athlete. An injury is noted as it was told: nobody diagnoses here. */
export const athleteNote = z.object({
  id: z.string(),
  revision: z.number(),
  kind: athleteNoteKind,
  from: day,
  until: day.optional(),
  text: z.string(),
  limb: z.enum(['both', 'left', 'right']).optional(),
  test: z.string().optional(),
  target: noteTarget.optional(),
});

export const athleteNoteDraft = athleteNote
  .omit({ id: true, revision: true })
  .extend({ text: z.string().max(2000).default(''), by: z.string().min(1).max(100) });

/** A change of a note; `revision` is the one it was made from. */
export const athleteNoteChange = athleteNoteDraft.omit({ kind: true }).extend({ revision: z.number() });

export const athleteNoteTakenBack = z.object({ reason: z.string().max(500), by: z.string().min(1).max(100) });

export type AthleteNote = z.infer<typeof athleteNote>;
export type AthleteNoteDraft = z.infer<typeof athleteNoteDraft>;
