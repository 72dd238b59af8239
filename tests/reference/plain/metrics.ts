import { at, indexOfLargest, integral, largestMean, mean, samples, touches } from './numbers.ts';
import type { Maybe, Trial } from './types.ts';

type Values = Record<string, Maybe<number>>;
/** A formula, or the first reason that stands in its way. */
type Formula = () => number | string;

export const times = [50, 90, 100, 150, 200, 250, 300];
export const impulseTimes = [50, 100, 150, 200, 250, 300];
export const bands = [
  [50, 100],
  [100, 150],
  [100, 200],
  [150, 200],
  [200, 250],
] as const;
export const peakWindows = [2, 5, 10, 20, 50];

/**
 * Every metric of section 3 of the definitions, by id: a value or a reason. Where several reasons stand in the way, the order is:
 * onset or baseline, body weight, one side only, window too short, past the end, gap, not defined.
 */
export function allMetrics(trial: Trial): Values {
  const { input, F, L, R, events, W, onset } = trial;
  const { fs } = input;
  const { r, e, p, Fp, Q, span } = events;
  const out: Values = {};
  const give = (id: string, formula: Formula) => {
    let value: number | string;
    try {
      value = formula();
    } catch (stop) {
      if (!(stop instanceof Stop)) throw stop;
      value = stop.reason;
    }
    if (typeof value === 'string') out[id] = { reason: value };
    else out[id] = Number.isFinite(value) ? { value } : { reason: 'not-defined' };
  };

  // What a formula may ask for; each throws its reason where there is none.
  const weight = () => need(W).value;
  const o = () => need(onset).index;
  const baseline = () => need(events.baseline);
  const noGap = (start: number, end: number) => {
    if (touches(input.gaps.open, start, end)) throw new Stop('gap-in-interval');
  };
  const peak = () => {
    noGap(r + 1, e);
    return Fp;
  };
  const sides = () => {
    if (L === undefined || R === undefined) throw new Stop('one-side-only');
    return { L, R };
  };
  /** Position o + T; T in ms. */
  const after = (T: number) => {
    const x = o() + (T * fs) / 1000;
    if (x > e) throw new Stop('interval-past-end');
    return x;
  };
  const forceAt = (G: Float64Array, T: number) => {
    const x = after(T);
    noGap(x, x);
    return at(G, x);
  };
  /** (F(o+B) - F(o+A)) / (B - A). */
  const rate = (A: number, B: number) => {
    const from = A === 0 ? o() : after(A);
    const to = after(B);
    noGap(from, to);
    return (at(F, to) - at(F, from)) / ((B - A) / 1000);
  };
  const impulse = (G: Float64Array, T: number, level: number) => {
    const to = after(T);
    noGap(o(), to);
    return integral(G, o(), to, fs, level);
  };
  const mass = () => weight() / input.gravity;
  const asymmetry = (left: number, right: number) => (100 * (right - left)) / (right + left);

  give('body_weight', () => weight());
  give('body_mass', () => mass());
  give('peak_force', () => peak());
  give('peak_force_net', () => {
    const W = weight();
    return peak() - W;
  });
  give('peak_force_relative', () => {
    const m = mass();
    return peak() / m;
  });
  give('peak_force_net_relative', () => {
    const m = mass();
    return (peak() - weight()) / m;
  });
  give('peak_force_allometric', () => {
    const m = mass();
    return peak() / m ** input.allometricExponent;
  });
  for (const length of [200, 1000]) {
    give(`best_mean_${length}`, () => {
      const best = largestMean(F, samples(length, fs), r + 1, e);
      if (best === undefined) return 'interval-past-end';
      noGap(r + 1, e);
      return best;
    });
  }
  give('time_to_peak', () => {
    if (o() > p) return 'interval-past-end';
    noGap(o(), e);
    return (p - o()) / fs;
  });
  give('force_at_onset', () => F[o()]!);
  for (const T of times) {
    give(`force_at_${T}`, () => forceAt(F, T));
    give(`force_net_at_${T}`, () => {
      o();
      const W = weight();
      return forceAt(F, T) - W;
    });
    give(`force_at_${T}_relative`, () => {
      o();
      const m = mass();
      return forceAt(F, T) / m;
    });
    give(`force_share_at_${T}`, () => {
      o();
      const W = weight();
      return (100 * (forceAt(F, T) - W)) / (peak() - W);
    });
    give(`rfd_0_${T}`, () => rate(0, T));
  }
  for (const [A, B] of bands) give(`rfd_${A}_${B}`, () => rate(A, B));
  for (const V of peakWindows) {
    give(`rfd_peak_${V}`, () => {
      const length = (V * fs) / 1000;
      const first = o();
      if (length < 5) return 'window-too-short';
      noGap(first, e);
      let best: number | undefined;
      for (let i = first; i + length <= p; i++) {
        const slope = (at(F, i + length) - F[i]!) / (V / 1000);
        if (best === undefined || slope > best) best = slope;
      }
      return best ?? 'interval-past-end';
    });
  }
  give('rfd_average', () => {
    if (o() > p) return 'interval-past-end';
    noGap(o(), p);
    return (peak() - F[o()]!) / ((p - o()) / fs);
  });
  give('rfd_20_80', () => {
    const at20 = Q + 0.2 * (peak() - Q);
    const at80 = Q + 0.8 * (peak() - Q);
    let first = r + 1;
    while (F[first]! < at80) first++;
    const crossing = (level: number) => {
      for (let n = first - 1; n >= span.start; n--) {
        if (F[n]! <= level) return n + (level - F[n]!) / (F[n + 1]! - F[n]!);
      }
      throw new Stop('not-defined');
    };
    const t20 = crossing(at20);
    const t80 = crossing(at80);
    noGap(t20, t80);
    return (at80 - at20) / ((t80 - t20) / fs);
  });
  for (const T of impulseTimes) {
    give(`impulse_0_${T}`, () => impulse(F, T, 0));
    give(`impulse_net_0_${T}`, () => {
      o();
      const W = weight();
      return impulse(F, T, W);
    });
  }
  give('rfd_0_200_relative', () => rate(0, 200) / (peak() - F[o()]!));
  give('force_loss', () => {
    const Fp = peak();
    let last = e;
    while (last > p && F[last]! < 0.9 * Fp) last--;
    if (last === p) return 'interval-past-end';
    const start = last - samples(500, fs);
    if (start < span.start) return 'interval-past-end';
    noGap(start, last - 1);
    return 100 * (1 - mean(F, start, last) / Fp);
  });

  for (const side of ['left', 'right'] as const) {
    const G = () => (side === 'left' ? sides().L : sides().R);
    give(`${side}_force_at_peak`, () => {
      const force = G()[p]!;
      peak();
      return force;
    });
    give(`${side}_peak_force`, () => {
      const force = G();
      noGap(r + 1, e);
      return force[indexOfLargest(force, r + 1, e)]!;
    });
    for (const T of times) {
      give(`${side}_force_at_${T}`, () => {
        o();
        return forceAt(G(), T);
      });
    }
    for (const T of impulseTimes) {
      give(`${side}_impulse_0_${T}`, () => {
        o();
        return impulse(G(), T, 0);
      });
    }
  }
  give('asymmetry_at_peak', () => {
    const { L, R } = sides();
    peak();
    return asymmetry(L[p]!, R[p]!);
  });
  give('asymmetry_net_at_peak', () => {
    const { start, end } = baseline();
    const { L, R } = sides();
    peak();
    noGap(start, end - 1);
    return asymmetry(L[p]! - mean(L, start, end), R[p]! - mean(R, start, end));
  });
  give('asymmetry_mean_force', () => {
    o();
    const { L, R } = sides();
    noGap(o(), e);
    return asymmetry(mean(L, o(), e + 1), mean(R, o(), e + 1));
  });
  for (const T of [100, 200, 250]) {
    give(`asymmetry_impulse_0_${T}`, () => {
      o();
      const { L, R } = sides();
      return asymmetry(impulse(L, T, 0), impulse(R, T, 0));
    });
  }
  give('standing_share_right', () => {
    const { start, end } = baseline();
    const { R } = sides();
    noGap(start, end - 1);
    return (100 * mean(R, start, end)) / mean(F, start, end);
  });
  return out;
}

class Stop extends Error {
  readonly reason: string;
  constructor(reason: string) {
    super(reason);
    this.reason = reason;
  }
}

function need<T>(maybe: Maybe<T>): T {
  if ('reason' in maybe) throw new Stop(maybe.reason);
  return maybe.value;
}
