import { z } from 'zod';
import { athleteMetric } from './athlete.ts';
import { squad } from './people.ts';

/** What a page over many athletes lets one choose from, and what was chosen; everybody where no squad is named. */
export const choice = z.object({
  squads: z.array(squad),
  squad: z.string().optional(),
  tests: z.array(z.object({ id: z.string(), sessions: z.number() })),
  test: z.string().optional(),
  metrics: z.array(z.object({ id: z.string(), title: z.string() })),
  metric: athleteMetric,
  scale: z.enum(['log', 'unit']),
});
