import type { UtcInstant } from '../recording/index.ts';
import type { RigCheckDocument } from './check-document.ts';
import type { RigCheckResult } from './judge-check.ts';

/** What is followed from check to check; each has a limit of the same name, the zero that of the offset. */
export const followedQuantities = ['gain', 'zero', 'noise'] as const;
export type FollowedQuantity = (typeof followedQuantities)[number];

/** What one check said of one plate. */
export interface CheckPoint {
  readonly at: UtcInstant;
  /** Gain error, %, and what is shown at no force, N, of the plate by itself: what a correction in force took off is put back. */
  readonly gain?: number;
  readonly zero?: number;
  /** SD at rest, N. */
  readonly noise?: number;
}

/** A plate over its checks, oldest first. */
export interface PlateHistory {
  readonly plate: string;
  readonly points: readonly CheckPoint[];
  /** As the newest of these checks had them; absent where it had none. */
  readonly limits: Readonly<Partial<Record<FollowedQuantity, number>>>;
}

interface KeptCheck {
  readonly at: UtcInstant;
  readonly document: Pick<RigCheckDocument, 'plates' | 'limits'>;
  readonly result: Pick<RigCheckResult, 'verdict' | 'correction' | 'quantities'>;
}

/** How gain, zero and noise of every plate went over the checks of a rig; one that says nothing of a plate has no point there. */
export function checkHistory(checks: readonly KeptCheck[]): PlateHistory[] {
  const ordered = checks.toSorted((a, b) => a.at.localeCompare(b.at));
  const limit = (id: string) => ordered.at(-1)?.document.limits.find((one) => one.id === id)?.value;
  const limits = Object.fromEntries(
    Object.entries({ gain: limit('gain'), zero: limit('offset'), noise: limit('noise') }).filter(
      ([, value]) => value !== undefined,
    ),
  );
  const plates = new Set(ordered.flatMap(({ document }) => document.plates));
  return [...plates].map((plate) => ({ plate, limits, points: ordered.flatMap((check) => pointOf(check, plate)) }));
}

function pointOf({ at, result }: KeptCheck, plate: string): CheckPoint[] {
  // A check of no verdict has too few loads for a line.
  const own = result.verdict === 'incomplete' ? undefined : result.correction.find((one) => one.plate === plate);
  const noise = result.quantities.find((one) => one.id === 'noise' && one.plate === plate)?.value;
  if (own === undefined && noise === undefined) return [];
  return [
    {
      at,
      ...(own === undefined ? {} : { gain: 100 * (own.gain - 1), zero: own.offset }),
      ...(noise === undefined ? {} : { noise }),
    },
  ];
}
