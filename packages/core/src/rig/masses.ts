import { deadWeight, steelDensity, usualAirDensity } from './dead-weight.ts';
import type { SiteGravity } from './site-gravity.ts';

/** How the mass is known: from its certificate, from a tolerance it was made to, or only from what is printed on it. */
export const massKnowledge = ['certificate', 'tolerance', 'printed'] as const;

/** One piece that is put on the plate. */
export interface ReferenceMass {
  readonly id: string;
  /** What is written on it. */
  readonly name: string;
  /** kg; the certified value where there is one. */
  readonly mass: number;
  readonly known: (typeof massKnowledge)[number];
  /** kg: the expanded uncertainty (k = 2) of a certificate, or the largest error a tolerance allows. */
  readonly within: number;
  /** Number of the certificate, or the words of the tolerance. */
  readonly reference?: string;
  /** kg/m^3; steel when absent. */
  readonly density?: number;
}

/** Cast plates of a gym are typically off by 1 to 5 % (default of this project): what an unproven print is worth, as a share. */
export const printedWithin = 0.05;

/** A force that is known, and how well. */
export interface ReferenceForce {
  /** N. */
  readonly force: number;
  /** Standard uncertainty, N. */
  readonly uncertainty: number;
}

/** Standard uncertainty of a piece, kg: half of a certificate's expanded one; a tolerance as a rectangle. */
export function massUncertainty({ mass, known, within }: ReferenceMass): number {
  if (known === 'certificate') return within / 2;
  return Math.max(within, known === 'printed' ? printedWithin * mass : 0) / Math.sqrt(3);
}

/**
 * The force of a stack of masses, N, with its standard uncertainty. The errors of the pieces are taken as fully correlated, since
 * pieces of one set were made and compared together: the uncertainty is their sum, never less than it could be. Gravity adds its
 * own part.
 *
 * @param masses what stands on the plate; none is zero force, exactly
 * @param airDensity kg/m^3
 */
export function referenceForce(
  masses: readonly ReferenceMass[],
  gravity: SiteGravity,
  airDensity: number = usualAirDensity,
): ReferenceForce {
  let force = 0;
  let pieces = 0;
  for (const piece of masses) {
    const { mass, density = steelDensity } = piece;
    force += deadWeight(mass, gravity.value, density, airDensity);
    pieces += massUncertainty(piece) * gravity.value;
  }
  return { force, uncertainty: Math.hypot(pieces, force * gravity.uncertainty) };
}
