import { weighingGravity } from '../recording/index.ts';

/** Gravity where the plates stand, and how it was found. */
export interface SiteGravity {
  /** m/s^2. */
  readonly value: number;
  readonly from: 'entered' | 'place';
  /** Degrees; when found from the place. */
  readonly latitude?: number;
  /** Above sea level, m; when found from the place. */
  readonly altitude?: number;
  /** Relative standard uncertainty. */
  readonly uncertainty: number;
}

/**
 * Half-width of what the formula may be off, as a share: 5 parts in 100 000 in general (stated with a national formula of the same
 * form; methods reference, 3.9). Taken as a rectangle.
 */
const formulaWithin = 5e-5;

/** Gravity from latitude (degrees) and altitude (m above sea level) by the formula of European weighing practice. */
export function gravityOfPlace(latitude: number, altitude: number): SiteGravity {
  return {
    ...{ value: weighingGravity(latitude, altitude), from: 'place', latitude, altitude },
    uncertainty: formulaWithin / Math.sqrt(3),
  };
}

/** Gravity that somebody entered, m/s^2, with its relative standard uncertainty (default: as good as the formula). */
export function gravityEntered(value: number, uncertainty: number = formulaWithin / Math.sqrt(3)): SiteGravity {
  return { value, from: 'entered', uncertainty };
}
