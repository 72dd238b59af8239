/** Where the load stands on a plate: its centre, or a point at a quarter of the diagonal from a corner. */
export const spots = ['centre', 'front-left', 'front-right', 'back-left', 'back-right'] as const;
export type Spot = (typeof spots)[number];

export const loadDirections = ['up', 'down'] as const;
export type LoadDirection = (typeof loadDirections)[number];

/** Read from samples of the live stream, or typed from a display by a person. */
export const readingOrigins = ['samples', 'typed'] as const;
export type ReadingOrigin = (typeof readingOrigins)[number];

/**
 * One plate read under one known load. The unloaded plate is the load 0: going up it is the zero before the series, going down the
 * zero after it.
 */
export interface LoadReading {
  readonly plate: string;
  /** From 1. */
  readonly series: number;
  readonly direction: LoadDirection;
  readonly spot: Spot;
  /** True force, N. */
  readonly load: number;
  /** Standard uncertainty of the true force, N. */
  readonly loadUncertainty: number;
  /** What the plate showed, N: mean of the window. */
  readonly reading: number;
  /** SD of the window, N; absent where it was typed. */
  readonly sd?: number;
  readonly origin: ReadingOrigin;
}

/** Loads closer than 1 mN are the same. */
export const isSameLoad = (a: number, b: number): boolean => Math.abs(a - b) < 1e-3;

/** Readings by load, smallest load first; within a load in the order they were taken. */
export function byLoad(readings: readonly LoadReading[]): { load: number; readings: LoadReading[] }[] {
  const groups: { load: number; readings: LoadReading[] }[] = [];
  for (const reading of readings) {
    const group = groups.find(({ load }) => isSameLoad(load, reading.load));
    if (group === undefined) groups.push({ load: reading.load, readings: [reading] });
    else group.readings.push(reading);
  }
  return groups.sort((a, b) => a.load - b.load);
}
