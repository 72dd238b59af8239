import { have, lack, type Outcome } from '../outcome.ts';
import { meanOf } from '../signal/index.ts';
import { isSameLoad, type LoadReading, type Spot, spots } from './reading.ts';

/** One load at the centre and near the corners of a plate. */
export interface SpotFigures {
  readonly plate: string;
  readonly load: number;
  readonly bySpot: readonly { readonly spot: Spot; readonly reading: number }[];
  /** Largest less smallest, % of the mean. */
  readonly spread: number;
}

/**
 * Five-spot check: the spread of one load over the places of a plate, (max - min) / mean, %. The first load read
 * away from the centre is taken; a place read more often counts with its mean going up.
 *
 * @returns `too-few-values` where not every place was read under one load
 */
export function spotFigures(plate: string, readings: readonly LoadReading[]): Outcome<SpotFigures> {
  const own = readings.filter((one) => one.plate === plate && one.direction === 'up' && one.load > 0);
  const away = own.find(({ spot }) => spot !== 'centre');
  if (away === undefined) return lack('too-few-values');
  const same = own.filter(({ load }) => isSameLoad(load, away.load));
  const bySpot = spots.flatMap((spot) => {
    const at = same.filter((one) => one.spot === spot).map(({ reading }) => reading);
    return at.length === 0 ? [] : [{ spot, reading: meanOf(at) }];
  });
  if (bySpot.length < spots.length) return lack('too-few-values');
  const values = bySpot.map(({ reading }) => reading);
  const spread = (100 * (Math.max(...values) - Math.min(...values))) / meanOf(values);
  return have({ plate, load: away.load, bySpot, spread });
}
