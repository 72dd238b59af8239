import { type RigLimit, type RigQuantity, smallLoad } from './limits.ts';
import type { LoadFigures } from './plate-figures.ts';

/** One figure against its limit. */
export interface JudgedQuantity {
  readonly id: RigQuantity;
  /** Absent for what belongs to the rig as a whole. */
  readonly plate?: string;
  /** In the unit of the limit, with its sign. */
  readonly value: number;
  /** The limit as it stood. */
  readonly limit: RigLimit;
  readonly standing: 'pass' | 'look' | 'fail' | 'not-judged';
  /** Load at which the worst was found, N. */
  readonly load?: number;
}

/** Figures are compared to this share of a limit: 0.5 % in decimals is not exact in binary. */
const exactly = 1e-9;

/** A figure with its standing; none where no limit is kept for it. */
export function judged(
  id: RigQuantity,
  value: number,
  limits: ReadonlyMap<RigQuantity, RigLimit>,
  where: Pick<JudgedQuantity, 'plate' | 'load'> = {},
): JudgedQuantity[] {
  const limit = limits.get(id);
  if (limit === undefined) return [];
  const size = Math.abs(value);
  const good = limit.good === 'at-most' ? size <= limit.value * (1 + exactly) : size >= limit.value * (1 - exactly);
  return [{ id, ...where, value, limit, standing: good ? 'pass' : limit.beyond }];
}

/**
 * Takes back a standing the masses cannot give: where they are known worse than the limit, only an error beyond limit and masses
 * together is certain.
 *
 * @param expanded uncertainty (k = 2) of the load, in the unit of the figure
 */
export function withinMasses(one: JudgedQuantity, expanded: number): JudgedQuantity {
  if (expanded <= one.limit.value || Math.abs(one.value) > one.limit.value + expanded) return one;
  return { ...one, standing: 'not-judged' };
}

/** The loads at which each figure of a plate is worst; small loads are judged in newtons, others in per cent. */
export function worstLoads(loads: readonly LoadFigures[]) {
  const worst = (figure: (one: LoadFigures) => number | undefined): LoadFigures | undefined => {
    let found: LoadFigures | undefined;
    for (const one of loads) {
      const value = figure(one);
      if (value === undefined) continue;
      if (found === undefined || Math.abs(value) > Math.abs(figure(found) as number)) found = one;
    }
    return found;
  };
  return {
    relative: worst(({ load, relativeError }) => (load > smallLoad ? relativeError : undefined)),
    small: worst(({ load, error }) => (load > 0 && load <= smallLoad ? error : undefined)),
    hysteresis: worst(({ hysteresis }) => hysteresis),
    spread: worst(({ spread }) => spread),
  };
}
