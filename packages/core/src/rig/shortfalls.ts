import type { RigCheckDocument } from './check-document.ts';
import type { RigLimit, RigQuantity } from './limits.ts';
import type { PlateFigures } from './plate-figures.ts';

/** What a check may lack. */
export const shortfallCodes = [
  'no-loads',
  'few-loads',
  'no-way-down',
  'one-series',
  'few-series',
  'masses-unknown',
  'masses-rough',
  'typed',
] as const;

/** Something a check lacks. `incomplete`: nothing is said without it. `look`: it still says something. */
export interface CheckShortfall {
  readonly code: (typeof shortfallCodes)[number];
  readonly weight: 'incomplete' | 'look';
  readonly plate?: string;
  /** What there is, and what was asked for; a number of loads or series, or a share in %. */
  readonly got?: number;
  readonly wanted?: number;
}

/** Loads without the unloaded plate, and series, of a full check (methods reference 3.10: at least 5 loads, 3 series). */
export const wantedLoads = 5;
export const wantedSeries = 3;
/** Under this many loads there is no line worth judging. */
const leastLoads = 2;
/** The masses shall be known this many times better (k = 2) than what they are to judge; common practice is 3 to 4. */
const betterBy = 3;

/** What a check lacks for its figures to be a verdict. */
export function shortfallsOf(
  document: RigCheckDocument,
  plates: readonly PlateFigures[],
  limits: ReadonlyMap<RigQuantity, RigLimit>,
): CheckShortfall[] {
  const typed = document.readings.filter(({ origin }) => origin === 'typed').length;
  return [
    ...plates.flatMap((figures) => [...ofPlate(figures), ...ofMasses(figures, limits.get('gain')?.value)]),
    ...(typed === 0 ? [] : [{ code: 'typed' as const, weight: 'look' as const, got: typed }]),
  ];
}

function ofPlate({ plate, loads, series }: PlateFigures): CheckShortfall[] {
  const up = loads.filter((one) => one.load > 0 && one.up !== undefined).length;
  if (up === 0) return [{ code: 'no-loads', weight: 'incomplete', plate }];
  const out: CheckShortfall[] = [];
  if (up < wantedLoads)
    out.push({
      ...{ code: 'few-loads', weight: up < leastLoads ? 'incomplete' : 'look', plate, got: up },
      wanted: wantedLoads,
    });
  if (!loads.some(({ hysteresis }) => hysteresis !== undefined))
    out.push({ code: 'no-way-down', weight: 'look', plate });
  if (series < wantedSeries)
    out.push({
      ...{ code: series < 2 ? 'one-series' : 'few-series', weight: 'look', plate, got: series },
      wanted: wantedSeries,
    });
  return out;
}

/** Masses that are not known well enough cannot tell a good plate from a bad one. */
function ofMasses({ plate, largestLoad, loads }: PlateFigures, gainLimit: number | undefined): CheckShortfall[] {
  const top = loads.at(-1);
  if (top === undefined || largestLoad === 0 || gainLimit === undefined) return [];
  const expanded = (200 * top.loadUncertainty) / largestLoad;
  if (expanded <= gainLimit / betterBy) return [];
  const unknown = expanded > gainLimit;
  return [
    {
      ...{ code: unknown ? 'masses-unknown' : 'masses-rough', weight: unknown ? 'incomplete' : 'look', plate },
      ...{ got: expanded, wanted: gainLimit / betterBy },
    },
  ];
}
