import { z } from 'zod';

/** What a lab lets its Floor screens show, decided at the station: what is not allowed is not sent. */
export const floorSettings = z.object({
  /**
   * Whose body weight, and every force it could be worked out from, may be sent to a Floor. `adults`: of people whose birth date on
   * record says so. The Wall never gets any of it.
   */
  bodyWeight: z.enum(['nobody', 'adults', 'everyone']),
});

export type FloorSettings = z.infer<typeof floorSettings>;
