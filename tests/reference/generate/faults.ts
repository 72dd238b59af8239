import type { Random } from './random.ts';
import type { Kind } from './recordings.ts';

/** Index of the first sample clearly above standing, or the middle. */
function riseOf(F: Float64Array, weight: number): number {
  const n = F.findIndex((f) => f > weight + 1);
  return n > 0 ? n : Math.floor(F.length / 2);
}

/** Puts the fault named by `kind`, and some sway and drift, on a clean curve. */
export function addFaults(rnd: Random, kind: Kind, fs: number, weight: number, clean: Float64Array): Float64Array {
  const F = Float64Array.from(clean);
  const rise = riseOf(clean, weight);
  const light = kind.endsWith('no-weight');
  if (kind === 'still') return F;
  const add = (from: number, to: number, force: (share: number) => number) => {
    for (let n = Math.max(0, Math.floor(from)); n < Math.min(F.length, to); n++) {
      F[n] = F[n]! + force((n - from) / (to - from));
    }
  };
  const swaySize = light ? rnd.between(0, 0.2) : kind === 'sway' ? rnd.between(5, 25) : rnd.between(0, 4);
  const swayRate = rnd.between(0.2, 0.35);
  const phase = rnd.between(0, 2 * Math.PI);
  const drift = light ? 0 : rnd.between(-5, 5);
  for (let n = 0; n < F.length; n++) {
    F[n] = F[n]! + swaySize * Math.sin((2 * Math.PI * swayRate * n) / fs + phase) + (drift * n) / fs;
  }
  if (kind === 'dip') {
    const depth = rnd.between(20, 180);
    add(rise - rnd.between(0.2, 0.5) * fs, rise, (x) => -depth * Math.sin(Math.PI * x));
  }
  if (kind === 'step' || kind === 'pretension') {
    const size = kind === 'step' ? rnd.between(40, 600) : rnd.between(15, 300);
    const before = kind === 'step' ? rnd.between(0.05, 1) : rnd.between(0.8, 3);
    add(rise - before * fs, F.length, (x) => size * Math.min(1, x * 40));
  }
  if (kind === 'unsteady') {
    const size = rnd.between(0.02, 0.3) * weight;
    add(0, F.length, () => size * rnd.normal());
  }
  if (kind === 'spike') add(rise + 0.1 * fs, rise + rnd.between(0.105, 0.13) * fs, () => 900);
  if (kind === 'double') {
    const size = rnd.between(100, 900);
    add(rise + 0.12 * fs, rise + rnd.between(0.2, 0.9) * fs, (x) => -size * Math.sin(Math.PI * x));
  }
  if (kind === 'unloaded') {
    const until = rnd.between(0.1, 1.2) * fs;
    for (let n = 0; n < until; n++) F[n] = 0;
  }
  return F;
}
