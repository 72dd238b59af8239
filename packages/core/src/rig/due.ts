import type { UtcInstant } from '../recording/index.ts';

/** How the next check of a rig stands. */
export interface CheckDue {
  /** `never`: none was made. `soon`: due within a month or a tenth of the interval, whichever is shorter. */
  readonly standing: 'never' | 'good' | 'soon' | 'overdue';
  readonly at?: UtcInstant;
  /** Whole days until then; negative when it is past. */
  readonly days?: number;
}

const day = 86_400_000;

/** Days between full checks: once a year (default of this project; the literature on remounted plates has every 5 years). */
export const usualInterval = 365;

/**
 * When the next check is due, counted from the last one that passed or was accepted with a look.
 *
 * @param last when it was made; undefined where there is none
 * @param interval days
 */
export function checkDue(last: UtcInstant | undefined, interval: number, now: UtcInstant): CheckDue {
  if (last === undefined) return { standing: 'never' };
  const due = Date.parse(last) + interval * day;
  const days = Math.floor((due - Date.parse(now)) / day);
  const at = new Date(due).toISOString() as UtcInstant;
  if (days < 0) return { standing: 'overdue', at, days };
  return { standing: days <= Math.min(30, interval / 10) ? 'soon' : 'good', at, days };
}
