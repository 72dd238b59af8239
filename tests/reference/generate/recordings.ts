import { rules } from '../plain/onset.ts';
import { fillGaps } from '../plain/signal.ts';
import type { Input, Plate, Span } from '../plain/types.ts';
import { addFaults } from './faults.ts';
import { type Random, random } from './random.ts';

const rates = [500, 600, 1000, 1000, 1000, 2000, 1024, 960, 999.7, 1000.3];

/** One generated recording with the question asked of it; `kind` says what it is for the failure message. */
export interface Case {
  readonly seed: number;
  readonly kind: string;
  readonly input: Input;
}

const kinds = [
  'good',
  'good',
  'dip',
  'step',
  'pretension',
  'sway',
  'two-efforts',
  'two-efforts',
  'truncated-start',
  'truncated-end',
  'no-effort',
  'unsteady',
  'spike',
  'double',
  'gaps',
  'filled-gap',
  'unloaded',
  'no-weight',
  'single-leg',
  'clipped',
  'short',
  'lift-off',
  'filtered',
  'coarse',
  'still',
  'coarse-no-weight',
  'by-hand',
] as const;
export type Kind = (typeof kinds)[number];

/** Builds the recording of one seed. Nothing here aims at real bodies; it aims at every branch of the definitions. */
export function generate(seed: number): Case {
  const rnd = random(seed);
  // The kind is dealt out in turn, so that every kind is met in any long enough run.
  const kind = kinds[seed % kinds.length]!;
  const fs = rnd.pick(rates);
  const load = kind === 'no-weight' || kind === 'coarse-no-weight' ? 'none' : 'weight';
  const weight = load === 'none' ? rnd.between(0, 4) : rnd.between(440, 1370);
  const seconds =
    kind === 'short'
      ? rnd.chance(0.3)
        ? rnd.between(0.02, 0.4)
        : rnd.between(0.4, 2.2)
      : rnd.between(3.2, fs > 1100 ? 4.2 : 6);
  const N = Math.floor(seconds * fs);
  const clean = pulls(rnd, kind, fs, N, weight);
  const F = addFaults(rnd, kind, fs, weight, clean);

  const noise =
    kind === 'still'
      ? 0
      : load === 'none'
        ? rnd.between(0.01, 0.2)
        : rnd.chance(0.5)
          ? rnd.between(0.2, 1)
          : rnd.between(1, 5);
  const plates = split(rnd, kind, F, noise);
  const missing = kind === 'gaps' || kind === 'filled-gap' ? gaps(rnd, kind, fs, N) : [];
  // Steps of a converter; no round numbers, or a force would now and then be exactly baseline + 20 N, where the last binary
  // digit decides.
  const step = kind === 'still' ? 0.0103 : rnd.pick([0.0977, 0.4883, 0.9766, 1.9531]);
  if (kind === 'still' || kind.startsWith('coarse')) {
    for (const { force } of plates) for (let n = 0; n < N; n++) force[n] = Math.round(force[n]! / step) * step;
  }
  const repaired = plates.map((plate) => ({ ...plate, ...fillGaps(plate.force, missing, fs) }));
  const total = sum(repaired.map((plate) => plate.force))!;
  const left = sum(repaired.filter((plate) => plate.side === 'left').map((plate) => plate.force));
  const right = sum(repaired.filter((plate) => plate.side === 'right').map((plate) => plate.force));
  const { filled, open } = fillGaps(total, missing, fs);

  const weighed = load === 'weight' && rnd.chance(0.5);
  const largest = kind !== 'two-efforts' || rnd.chance(0.15);
  const spanned = kind !== 'short' && rnd.chance(0.1);
  const input: Input = {
    fs,
    total,
    ...(left ? { left } : {}),
    ...(right ? { right } : {}),
    plates: repaired.map(({ side, force, range }) => ({ side, force, ...(range ? { range } : {}) })),
    gaps: { filled, open },
    ...(weighed
      ? { bodyWeight: { value: weight + rnd.between(-20, 20), from: rnd.pick(['weighing', 'given'] as const) } }
      : {}),
    gravity: rnd.pick([9.80665, 9.81, 9.7803]),
    load,
    limbs: kind === 'single-leg' ? rnd.pick(['left', 'right']) : load === 'none' ? 'any' : 'both',
    pull: rnd.chance(0.5)
      ? { planned: 5, warnUnder: 2, failUnder: 1 }
      : { planned: rnd.pick([1, 3]), warnUnder: 0.8, failUnder: 0.5 },
    onsetRule: rnd.chance(0.5) ? 'five-sd' : rnd.pick(rules),
    ...(rnd.chance(0.3) ? { cue: rnd.between(0.3, 0.6) * N } : {}),
    ...(rnd.chance(0.2) ? { unloaded: { before: rnd.normal(), after: rnd.normal() * 8 } } : {}),
    ...(spanned ? { span: { start: Math.floor(0.05 * N), end: Math.floor(0.95 * N) } } : {}),
    efforts: largest ? 'largest' : 'all',
    allometricExponent: 2 / 3,
    baselineSeconds: load === 'none' ? rnd.pick([0.3, 0.5, 1]) : 1,
    anchorSeconds: 0.25,
    ...(kind === 'by-hand' ? { onsetByHand: Math.floor(rnd.between(0.2, rnd.pick([0.7, 0.99])) * N) } : {}),
    ...(kind === 'filtered' ? { filterCutoff: rnd.pick([10, 20, 50, 100]) } : {}),
  };
  return { seed, kind, input };
}

/** Force without noise: standing, then one or two pulls that rise exponentially and fall again. */
function pulls(rnd: Random, kind: Kind, fs: number, N: number, weight: number): Float64Array {
  const F = new Float64Array(N).fill(weight);
  if (kind === 'no-effort') return F;
  const seconds = N / fs;
  const two = kind === 'two-efforts';
  const gains = kind.endsWith('no-weight') ? [20, 200] : [250, 2800];
  let begin = kind === 'truncated-start' ? rnd.between(-0.3, 0.4) : rnd.between(1.1, two ? 1.4 : 0.55 * seconds);
  for (let effort = 0; effort < (two ? 2 : 1); effort++) {
    // Now and then a faint one, near the least effort and under the larger thresholds.
    const gain = rnd.chance(0.15) ? gains[0]! * rnd.between(0.15, 0.8) : rnd.between(gains[0]!, gains[1]!);
    const room = two ? seconds / 2 - 1.4 : seconds - begin;
    const lasts = kind === 'truncated-end' ? seconds : Math.max(0.3, rnd.between(0.55, 0.85) * room);
    const rise = rnd.between(0.04, 0.2);
    const fatigue = rnd.between(-0.05, 0.15);
    for (let n = 0; n < N; n++) {
      const t = n / fs - begin;
      if (t <= 0) continue;
      const up = t < lasts ? 1 - Math.exp(-((t / rise) ** 1.6)) - fatigue * t : 0;
      const down = t >= lasts ? (1 - fatigue * lasts) * Math.exp(-(t - lasts) / 0.06) : 0;
      F[n] = F[n]! + gain * (up + down);
    }
    begin += lasts + rnd.between(1.7, 2.1);
  }
  return F;
}

/** One or two plates that add up to the force, each with noise of its own. */
function split(rnd: Random, kind: Kind, F: Float64Array, noise: number): Plate[] {
  const noisy = (share: (n: number) => number) => F.map((f, n) => share(n) * f + noise * rnd.normal());
  const capped = (force: Float64Array): Pick<Plate, 'force' | 'range'> => {
    if (kind !== 'clipped' && !rnd.chance(0.2)) return { force };
    const top = kind === 'clipped' && rnd.chance(0.8) ? rnd.between(700, 1500) : 9000;
    return { force: force.map((f) => Math.min(f, top)), range: [-100, top] };
  };
  if (kind === 'single-leg') {
    const resting = rnd.chance(0.5) ? 0 : rnd.between(0.01, 0.06);
    return [
      { side: 'left', ...capped(noisy(() => 1 - resting)) },
      { side: 'right', ...capped(noisy(() => resting)) },
    ];
  }
  if (rnd.chance(0.3)) return [{ side: rnd.pick(['none', 'left']), ...capped(noisy(() => 1)) }];
  const right = kind === 'lift-off' ? rnd.between(0.005, 0.05) : rnd.between(0.4, 0.6);
  const wander = rnd.between(0, kind === 'lift-off' ? 0.01 : 0.05);
  const shareRight = (n: number) => right + wander * Math.sin(n / 300);
  return [
    { side: 'left', ...capped(noisy((n) => 1 - shareRight(n))) },
    { side: 'right', ...capped(noisy(shareRight)) },
  ];
}

function sum(forces: readonly Float64Array[]): Float64Array | undefined {
  if (forces.length === 0) return undefined;
  const out = Float64Array.from(forces[0]!);
  for (const force of forces.slice(1)) for (let n = 0; n < out.length; n++) out[n] = out[n]! + force[n]!;
  return out;
}

function gaps(rnd: Random, kind: Kind, fs: number, N: number): Span[] {
  const spans: Span[] = [];
  let from = rnd.between(0.05, 0.5) * N;
  const count = rnd.pick([1, 1, 2, 3]);
  for (let i = 0; i < count && from < N - 0.1 * fs; i++) {
    const start = Math.floor(from);
    const length =
      kind === 'filled-gap'
        ? Math.max(1, Math.floor(rnd.between(1, 0.005 * fs)))
        : Math.ceil(rnd.between(0.006, 0.05) * fs);
    spans.push({ start, end: start + length });
    from = start + length + rnd.between(0.02, 0.4) * N;
  }
  return spans;
}
