import type { ReferenceMass } from './masses.ts';
import { isSameLoad, type LoadDirection, type LoadReading, type Spot, spots } from './reading.ts';

/** One thing to do: put these masses on that plate and read. */
export interface CheckStep {
  readonly plate: string;
  readonly series: number;
  readonly direction: LoadDirection;
  readonly spot: Spot;
  /** Ids of the masses that stand on the plate; none is the empty plate. */
  readonly masses: readonly string[];
}

/** What a check shall consist of. */
export interface WantedSteps {
  readonly plates: readonly string[];
  /** In the order they are put on. */
  readonly masses: readonly ReferenceMass[];
  readonly series: number;
  /** Also read all masses together at the four other places of each plate. */
  readonly spots: boolean;
}

/**
 * The steps of a check, in order: plate by plate, series by series, the empty plate, one mass more each time, then one less each
 * time back to the empty plate; after the last series, where wanted, the whole stack at the four other places and at the centre.
 */
export function checkPlan({ plates, masses, series, spots: everywhere }: WantedSteps): CheckStep[] {
  const ids = masses.map(({ id }) => id);
  const ways = (plate: string, number: number): CheckStep[] => {
    const of = (direction: LoadDirection, count: number): CheckStep => ({
      ...{ plate, series: number, direction, spot: 'centre', masses: ids.slice(0, count) },
    });
    return [
      ...Array.from({ length: ids.length + 1 }, (_, count) => of('up', count)),
      ...Array.from({ length: ids.length }, (_, i) => of('down', ids.length - 1 - i)),
    ];
  };
  const places = (plate: string): CheckStep[] =>
    spots.map((spot) => ({ plate, series: series + 1, direction: 'up', spot, masses: ids }));
  return plates.flatMap((plate) => [
    ...Array.from({ length: series }, (_, i) => ways(plate, i + 1)).flat(),
    ...(everywhere && ids.length > 0 ? places(plate) : []),
  ]);
}

/** Whether a reading is that of a step; its load is what the step's masses weigh, N. */
export const isReadingOf = (reading: LoadReading, step: CheckStep, load: number): boolean =>
  reading.plate === step.plate &&
  reading.series === step.series &&
  reading.direction === step.direction &&
  reading.spot === step.spot &&
  isSameLoad(reading.load, load);
