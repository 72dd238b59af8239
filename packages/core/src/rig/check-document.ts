import type { CellPair } from './against-cell.ts';
import type { RestFigures } from './at-rest.ts';
import type { PlateCorrection } from './correction.ts';
import type { RigLimit } from './limits.ts';
import type { ReferenceMass } from './masses.ts';
import type { TapFigures } from './natural-frequency.ts';
import type { LoadReading } from './reading.ts';
import type { SiteGravity } from './site-gravity.ts';

/** Everything that was read and used in one check of a rig; the result is computed from it and from nothing else. */
export interface RigCheckDocument {
  readonly schema: 'sthene.rig-check/1';
  /** Every plate of the rig. */
  readonly plates: readonly string[];
  readonly gravity: SiteGravity;
  /** kg/m^3. */
  readonly airDensity: number;
  readonly masses: readonly ReferenceMass[];
  readonly limits: readonly RigLimit[];
  /** What was in force while the plates were read: the readings have it in them. Empty: none. */
  readonly corrected: readonly PlateCorrection[];
  readonly readings: readonly LoadReading[];
  /** Each unloaded plate before the first series. */
  readonly rest: readonly (RestFigures & { readonly plate: string })[];
  readonly taps: readonly (TapFigures & { readonly plate: string })[];
  /** One person on each plate in turn, N. */
  readonly balance: readonly { readonly plate: string; readonly weight: number }[];
  readonly cell: readonly CellPair[];
}
