import { z } from 'zod';

export const person = z.object({
  id: z.string(),
  code: z.string(),
  givenName: z.string(),
  familyName: z.string(),
  birthDate: z.string().optional(),
  sex: z.enum(['female', 'male', 'other']).optional(),
  squads: z.array(z.string()),
  notes: z.string(),
  sessions: z.number(),
});

export const personDraft = z.object({
  code: z.string().max(40).optional(),
  givenName: z.string().min(1).max(100),
  familyName: z.string().max(100),
  birthDate: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/)
    .optional(),
  sex: z.enum(['female', 'male', 'other']).optional(),
});

export const squad = z.object({ id: z.string(), name: z.string(), members: z.number() });

export type Person = z.infer<typeof person>;
export type PersonDraft = z.infer<typeof personDraft>;
export type Squad = z.infer<typeof squad>;
