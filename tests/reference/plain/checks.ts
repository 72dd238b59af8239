import { largestMean, mean, samples, touches } from './numbers.ts';
import type { Judged, Maybe, Plate, Span, Trial } from './types.ts';

const notJudged = (why: string): Judged => ({ status: 'not-judged', notJudged: why });

/** Judges "more than": warn above one limit, fail above the other. */
function above(value: number, warn: number, fail = Number.POSITIVE_INFINITY): Judged {
  return { status: value > fail ? 'fail' : value > warn ? 'warn' : 'pass', value };
}

/** Judges "less than". */
function below(value: number, warn: number, fail = Number.NEGATIVE_INFINITY): Judged {
  return { status: value < fail ? 'fail' : value < warn ? 'warn' : 'pass', value };
}

const had = <T>(maybe: Maybe<T>): T | undefined => ('value' in maybe ? maybe.value : undefined);

/** Mean of the `length` samples that end with sample n. */
const trailing = (F: Float64Array, n: number, length: number) => mean(F, n - length + 1, n + 1);

/** Every check of section 4 of the definitions that a file can have, by id. */
export function allChecks(trial: Trial): Record<string, Judged> {
  const { input, F, L, R, events } = trial;
  const { fs, load } = input;
  const { r, e, Fp, Q, span } = events;
  const baseline = had(events.baseline);
  const q = had(events.q);
  const onset = had(trial.onset);
  const W = had(trial.W);
  const open = input.gaps.open;
  const ms = (time: number) => samples(time, fs);
  const size = Fp - Q;
  const out: Record<string, Judged> = {};

  const quietBaseline = (): Judged => {
    if (load === 'none') return notJudged('not-for-this-test');
    if (!baseline) return notJudged('no-baseline');
    if (!W) return notJudged('no-body-weight');
    return above(baseline.sd, Math.max(0.01 * W.value, 12), Math.max(0.02 * W.value, 18));
  };

  const steadyBefore = (): Judged => {
    if (load === 'none') return notJudged('not-for-this-test');
    if (q === undefined) return notJudged('no-baseline');
    const end = q - ms(150);
    const start = end - ms(1000);
    if (start < span.start) return notJudged('too-short');
    if (touches(open, start, end - 1)) return notJudged('gap');
    let largest = Number.NEGATIVE_INFINITY;
    let smallest = Number.POSITIVE_INFINITY;
    for (let k = start; k + ms(20) <= end; k++) {
      const m = mean(F, k, k + ms(20));
      largest = Math.max(largest, m);
      smallest = Math.min(smallest, m);
    }
    return above(largest - smallest, 30, 50);
  };

  const pretension = (): Judged => {
    if (load === 'none') return notJudged('not-for-this-test');
    // B - W says nothing when W is B: without a weighed or given W there is no check.
    if (!W || W.from === 'baseline') return notJudged('no-body-weight');
    if (!baseline || q === undefined) return notJudged('no-baseline');
    const end = q - ms(150);
    const start = end - ms(200);
    if (start < span.start) return notJudged('too-short');
    if (touches(open, start, end - 1)) return notJudged('gap');
    let value = mean(F, start, end) - W.value;
    const standing = baseline.mean - W.value;
    if (Math.abs(standing) > Math.abs(value)) value = standing;
    return { ...above(Math.abs(value), 30, 50), value };
  };

  /** First index from r on with F >= B + 0.8 (F_p - B). */
  const at80 = (B: number) => {
    let n = r;
    while (F[n]! < B + 0.8 * (Fp - B)) n++;
    return n;
  };

  const steppedStart = (): Judged => {
    if (!baseline) return notJudged('no-baseline');
    if (!onset) return notJudged('no-onset');
    const last = at80(baseline.mean);
    const step = ms(100);
    if (last - onset.index < step) return notJudged('too-short');
    if (onset.index - ms(20) + 1 < span.start) return notJudged('too-short');
    if (touches(open, onset.index, last)) return notJudged('gap');
    let smallest = Number.POSITIVE_INFINITY;
    for (let n = onset.index; n + step <= last; n++) {
      smallest = Math.min(smallest, trailing(F, n + step, ms(20)) - trailing(F, n, ms(20)));
    }
    return below((100 * smallest) / size, 5, 1);
  };

  const countermovement = (): Judged => {
    if (load === 'none') return notJudged('not-for-this-test');
    const start = r - ms(700);
    if (start < span.start) return notJudged('too-short');
    if (touches(open, start, r - 1)) return notJudged('gap');
    let running = Number.NEGATIVE_INFINITY;
    let fall = 0;
    for (let k = start; k + ms(10) <= r; k++) {
      const m = mean(F, k, k + ms(10));
      running = Math.max(running, m);
      fall = Math.max(fall, running - m);
    }
    return above(fall, 20, 50);
  };

  const onsetAgreement = (): Judged => {
    const own = had(trial.onsets[input.onsetRule]!);
    const other = had(trial.onsets[input.onsetRule === 'percent-weight-5' ? 'local-line' : 'percent-weight-5']!);
    if (!own || !other) return notJudged('no-onset');
    return above(Math.abs(own.index - other.index) / fs, 0.1);
  };

  const steppedRise = (): Judged => {
    if (!baseline) return notJudged('no-baseline');
    if (!onset) return notJudged('no-onset');
    const last = at80(baseline.mean);
    if (onset.index > last) return notJudged('too-short');
    if (touches(open, onset.index, last)) return notJudged('gap');
    let running = Number.NEGATIVE_INFINITY;
    let run = 0;
    let longest = 0;
    for (let n = onset.index; n <= last; n++) {
      running = Math.max(running, F[n]!);
      run = F[n]! < running - 0.05 * size ? run + 1 : 0;
      longest = Math.max(longest, run);
    }
    return above(longest / fs, 0.03);
  };

  const doublePull = (): Judged => {
    if (!onset) return notJudged('no-onset');
    if (touches(open, onset.index, e)) return notJudged('gap');
    // The largest F in [n, e], by n.
    const after = Float64Array.from(F);
    for (let n = e - 1; n >= onset.index; n--) after[n] = Math.max(F[n]!, after[n + 1]!);
    let before = Number.NEGATIVE_INFINITY;
    let deepest = 0;
    for (let n = onset.index; n <= e; n++) {
      before = Math.max(before, F[n]!);
      deepest = Math.max(deepest, Math.min(before, after[n]!) - F[n]!);
    }
    return above((100 * deepest) / size, 20);
  };

  const sustainedEffort = (): Judged => {
    if (!onset) return notJudged('no-onset');
    if (touches(open, onset.index, e)) return notJudged('gap');
    return below((e - onset.index) / fs, input.pull.warnUnder, input.pull.failUnder);
  };

  const peakAtEnd = (): Judged => {
    if (input.pull.planned < 2) return notJudged('not-for-this-test');
    let last = e;
    while (F[last]! < 0.95 * Fp) last--;
    const late = last - ms(200);
    const early = late - ms(1000);
    if (early < span.start) return notJudged('too-short');
    if (touches(open, early, last - 1)) return notJudged('gap');
    return above(100 * (mean(F, late, last) / mean(F, early, late) - 1), 3);
  };

  const spike = (): Judged => {
    if (!baseline) return notJudged('no-baseline');
    if (touches(open, r + 1, e)) return notJudged('gap');
    const best = largestMean(F, ms(20), r + 1, e);
    if (best === undefined) return notJudged('too-short');
    return above(Fp - best, Math.max(5 * baseline.sd, 0.03 * Fp));
  };

  const earlyPull = (): Judged => {
    if (input.cue === undefined) return notJudged('no-cue');
    if (!onset) return notJudged('no-onset');
    if (touches(open, Math.min(input.cue, onset.index), Math.max(input.cue, onset.index))) return notJudged('gap');
    return above((input.cue - onset.index) / fs, 0.1);
  };

  const gap = (): Judged => {
    const start = baseline?.start ?? span.start;
    const value = countIn(open, start, e) + countIn(input.gaps.filled, start, e);
    if (touches(open, start, e)) return { status: 'fail', value };
    return { status: touches(input.gaps.filled, start, e) ? 'warn' : 'pass', value };
  };

  const liftOff = (): Judged => {
    if (input.limbs !== 'both') return notJudged('not-for-this-test');
    if (!L || !R) return notJudged('one-side-only');
    if (!onset) return notJudged('no-onset');
    // The windows begin in [o, e] and may reach past e, where a plate that falls silent shows.
    const last = Math.min(e + ms(20) - 1, span.end - 1);
    if (touches(open, onset.index, last)) return notJudged('gap');
    let least = Number.POSITIVE_INFINITY;
    for (const side of [L, R]) {
      for (let k = onset.index; k + ms(20) - 1 <= last; k++) least = Math.min(least, mean(side, k, k + ms(20)));
    }
    if (least === Number.POSITIVE_INFINITY) return notJudged('too-short');
    return below(least, Number.NEGATIVE_INFINITY, 20);
  };

  const otherFoot = (): Judged => {
    if (input.limbs !== 'left' && input.limbs !== 'right') return notJudged('not-for-this-test');
    if (!L || !R) return notJudged('one-side-only');
    if (!baseline) return notJudged('no-baseline');
    if (touches(open, baseline.start, e)) return notJudged('gap');
    const most = largestMean(input.limbs === 'left' ? R : L, ms(20), baseline.start, e);
    if (most === undefined) return notJudged('too-short');
    return above(most, Number.POSITIVE_INFINITY, 20);
  };

  const zeroAfter = (): Judged => {
    if (load === 'none') return notJudged('not-for-this-test');
    if (!input.unloaded) return notJudged('not-in-file');
    const value = input.unloaded.after - input.unloaded.before;
    return { ...above(Math.abs(value), 5, Math.max(15, 0.005 * Fp)), value };
  };

  const noiseForRfd = (): Judged => {
    if (!baseline) return notJudged('no-baseline');
    return above((100 * 5 * baseline.sd) / (Fp - baseline.mean), 5);
  };

  const restBefore = (): Judged => {
    if (!baseline) return notJudged('no-baseline');
    return below((100 * (Fp - baseline.mean)) / Fp, 25);
  };

  out.quiet_baseline = quietBaseline();
  out.steady_before = steadyBefore();
  out.pretension = pretension();
  out.rest_before = restBefore();
  out.stepped_start = steppedStart();
  out.countermovement = countermovement();
  out.onset_agreement = onsetAgreement();
  out.stepped_rise = steppedRise();
  out.double_pull = doublePull();
  out.sustained_effort = sustainedEffort();
  out.peak_at_end = peakAtEnd();
  out.spike = spike();
  out.early_pull = earlyPull();
  out.clipping = clipping(input.plates, baseline?.start ?? span.start, e, open);
  out.gap = gap();
  out.lift_off = liftOff();
  out.other_foot = otherFoot();
  out.zero_after = zeroAfter();
  out.noise_for_rfd = noiseForRfd();
  out.sample_rate = below(fs, 1000, 500);
  return out;
}

/** How many samples of start ... end (both included) lie in the gaps. */
function countIn(gaps: readonly Span[], start: number, end: number): number {
  let count = 0;
  for (let n = start; n <= end; n++) if (touches(gaps, n, n)) count++;
  return count;
}

/**
 * Samples at a limit of their channel. With a known range: at 99.5 % of it or more, or 3 or more in a row at the lower end.
 * Without: 3 or more in a row equal to the largest value of the whole recording.
 */
function clipping(plates: readonly Plate[], start: number, end: number, open: readonly Span[]): Judged {
  if (touches(open, start, end)) return notJudged('gap');
  let value = 0;
  for (const { force, range } of plates) {
    const largest = force.reduce((most, f) => Math.max(most, f), Number.NEGATIVE_INFINITY);
    const atLimit = (n: number) =>
      range ? force[n]! <= range[0] && range[0] < 0 : largest > 20 && force[n]! === largest;
    for (let n = start; n <= end; n++) {
      if (range && force[n]! >= 0.995 * range[1]) value++;
      if (!atLimit(n)) continue;
      let first = n;
      while (first > start && atLimit(first - 1)) first--;
      let last = n;
      while (last < end && atLimit(last + 1)) last++;
      if (last - first + 1 >= 3) value++;
    }
  }
  return { status: value > 0 ? 'fail' : 'pass', value };
}
