import type { ReportFrame } from '../input/common.ts';
import type { Dates } from '../text/dates.ts';

/** How old somebody is, as far as a page has to know. */
export type Age = 'adult' | 'minor' | 'unknown';

/** Age of majority in this page's sense: full years. */
const majority = 18;

/**
 * Whether somebody was under 18 on the day of their newest session.
 *
 * @param birthDate `YYYY-MM-DD`
 * @param newest instant of the newest session
 */
export function ageOn(birthDate: string | undefined, newest: string, dates: Dates): Age {
  const [year, month, day] = (birthDate ?? '').split('-').map(Number);
  if (year === undefined || month === undefined || day === undefined || !Number.isFinite(year)) return 'unknown';
  const on = dates.parts(newest);
  const before = on.month < month || (on.month === month && on.day < day);
  return on.year - year - (before ? 1 : 0) < majority ? 'minor' : 'adult';
}

/** Whether the page is one of a minor: no mass, nothing for each kilogram, no place among others. */
export const asMinor = (age: Age, { unknownAge }: Pick<ReportFrame, 'unknownAge'>): boolean =>
  age === 'minor' || (age === 'unknown' && unknownAge === 'as-minor');

const masses: ReadonlySet<string> = new Set(['body_weight', 'body_mass', 'peak_force_allometric']);

/** Whether a metric tells somebody's mass, or is a share of it. */
export const tellsMass = ({ id, unit }: { readonly id: string; readonly unit: string }): boolean =>
  masses.has(id) || unit === 'kg' || unit.endsWith('/kg');
