/** What is judged of a rig. */
export const rigQuantities = [
  'gain',
  'offset',
  'linearity',
  'hysteresis',
  'repeatability',
  'relative-error',
  'small-load-error',
  'zero-return',
  'zero-drift',
  'noise',
  'mains',
  'spots',
  'balance',
  'frequency',
  'cell',
] as const;
export type RigQuantity = (typeof rigQuantities)[number];

/** A limit as data: what it is in, the default, which side is good, what breaking it means, and where the number comes from. */
export interface RigLimit {
  readonly id: RigQuantity;
  readonly unit: '%' | 'N' | '% of the largest load' | 'Hz';
  readonly value: number;
  /** The absolute value must be at most this, or at least this. */
  readonly good: 'at-most' | 'at-least';
  /** `fail`: do not test like this. `look`: somebody should look at it. */
  readonly beyond: 'fail' | 'look';
  readonly source: string;
}

/** Loads up to here are judged in newtons, larger ones in per cent, N (methods reference 3.10). */
export const smallLoad = 200;

const own =
  'Default of this project, modelled on static verification of force-measuring systems; no standard claims it.';

const atMost = (
  id: RigQuantity,
  value: number,
  unit: RigLimit['unit'],
  beyond: RigLimit['beyond'] = 'fail',
): RigLimit => ({
  ...{ id, unit, value, good: 'at-most', beyond, source: own },
});

/** The limits a lab begins with (methods reference 3.10, 3.12, 3.13, 4.5). Proposals: validate them on the lab's own plates. */
export const defaultLimits: readonly RigLimit[] = [
  atMost('gain', 0.5, '%'),
  atMost('offset', 1, 'N'),
  atMost('linearity', 0.2, '% of the largest load'),
  atMost('hysteresis', 0.2, '% of the largest load'),
  atMost('repeatability', 0.5, '%'),
  atMost('relative-error', 0.5, '%'),
  atMost('small-load-error', 1, 'N'),
  atMost('zero-return', 0.05, '% of the largest load'),
  atMost('zero-drift', 2, 'N', 'look'),
  atMost('noise', 2, 'N', 'look'),
  atMost('mains', 1, 'N', 'look'),
  atMost('spots', 0.5, '%'),
  atMost('balance', 0.5, '%'),
  {
    ...{ id: 'frequency', unit: 'Hz', value: 100, good: 'at-least', beyond: 'look' },
    source: 'Default of this project: under it rates of force development over less than 50 ms are unreliable.',
  },
  atMost('cell', 0.5, '%'),
];

/** A lab's own values over the defaults. */
export type LimitValues = Partial<Readonly<Record<RigQuantity, number>>>;

/** The defaults with a lab's own values in their place, which then say so. */
export function limitsWith(values: LimitValues): readonly RigLimit[] {
  return defaultLimits.map((limit) => {
    const value = values[limit.id];
    return value === undefined || value === limit.value ? limit : { ...limit, value, source: "The lab's own limit." };
  });
}
