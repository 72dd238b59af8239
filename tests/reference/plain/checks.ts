import { largestMean, mean, samples, touches } from './numbers.ts';
import type { Judged, Maybe, Plate, Trial } from './types.ts';

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
  const { input, F, events } = trial;
  const { fs, load } = input;
  const { r, e, p, Fp, Q, span } = events;
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
    return above(baseline.sd, Math.max(0.01 * W.value, 8), Math.max(0.02 * W.value, 15));
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
    return above(largest - smallest, 25, 50);
  };

  const pretension = (): Judged => {
    if (load === 'none') return notJudged('not-for-this-test');
    if (!baseline || q === undefined) return notJudged('no-baseline');
    if (!W) return notJudged('no-body-weight');
    const end = q - ms(150);
    const start = end - ms(200);
    if (start < span.start) return notJudged('too-short');
    if (touches(open, start, end - 1)) return notJudged('gap');
    let value = mean(F, start, end) - W.value;
    const standing = baseline.mean - W.value;
    if (W.from === 'weighing' && Math.abs(standing) > Math.abs(value)) value = standing;
    return { ...above(Math.abs(value), 25, 50), value };
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
    const found: number[] = [];
    for (const rule of ['five-sd', 'forward-five-sd', 'percent-weight-5']) {
      const by = had(trial.onsets[rule]!);
      if (by) found.push(by.index);
    }
    if (found.length < 2) return notJudged('no-onset');
    return above(((Math.max(...found) - Math.min(...found)) / fs) * 1000, 100);
  };

  const steppedRise = (): Judged => {
    if (!baseline) return notJudged('no-baseline');
    if (!onset) return notJudged('no-onset');
    const last = at80(baseline.mean);
    if (touches(open, onset.index, last)) return notJudged('gap');
    let running = Number.NEGATIVE_INFINITY;
    let run = 0;
    let longest = 0;
    for (let n = onset.index; n <= last; n++) {
      running = Math.max(running, F[n]!);
      run = F[n]! < running - 0.05 * size ? run + 1 : 0;
      longest = Math.max(longest, run);
    }
    return above((longest / fs) * 1000, 30);
  };

  const doublePull = (): Judged => {
    if (!onset) return notJudged('no-onset');
    if (touches(open, onset.index, p)) return notJudged('gap');
    let running = Number.NEGATIVE_INFINITY;
    let fall = 0;
    for (let n = onset.index; n <= p; n++) {
      running = Math.max(running, F[n]!);
      fall = Math.max(fall, running - F[n]!);
    }
    return above((100 * fall) / size, 20);
  };

  const sustainedEffort = (): Judged => {
    if (!onset) return notJudged('no-onset');
    if (touches(open, onset.index, e)) return notJudged('gap');
    return below((e - onset.index) / fs, input.pull.warnUnder, input.pull.failUnder);
  };

  const peakAtEnd = (): Judged => {
    let last = e;
    while (F[last]! < 0.95 * Fp) last--;
    const late = last - ms(200);
    const early = late - ms(1000);
    if (early <= r) return notJudged('too-short');
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
    return above((input.cue - onset.index) / fs, 0.1);
  };

  const gap = (): Judged => {
    if (!baseline) return notJudged('no-baseline');
    if (touches(open, baseline.start, e)) return { status: 'fail' };
    return { status: touches(input.gaps.filled, baseline.start, e) ? 'warn' : 'pass' };
  };

  const liftOff = (): Judged => {
    if (input.limbs !== 'both') return notJudged('not-for-this-test');
    if (input.plates.length < 2) return notJudged('one-side-only');
    if (!onset) return notJudged('no-onset');
    if (touches(open, onset.index, e)) return notJudged('gap');
    let least = Number.POSITIVE_INFINITY;
    for (const plate of input.plates) {
      for (let n = onset.index; n <= e; n++) least = Math.min(least, plate.force[n]!);
    }
    return below(least, Number.NEGATIVE_INFINITY, 20);
  };

  const otherFoot = (): Judged => {
    if (input.limbs !== 'left' && input.limbs !== 'right') return notJudged('not-for-this-test');
    const other = input.limbs === 'left' ? 'right' : 'left';
    const plates = input.plates.filter((plate) => plate.side === other);
    if (plates.length === 0) return notJudged('one-side-only');
    if (!baseline) return notJudged('no-baseline');
    if (touches(open, baseline.start, e)) return notJudged('gap');
    let most = Number.NEGATIVE_INFINITY;
    for (const plate of plates) for (let n = baseline.start; n <= e; n++) most = Math.max(most, plate.force[n]!);
    return above(most, Number.POSITIVE_INFINITY, 20);
  };

  const zeroAfter = (): Judged => {
    if (!input.unloaded) return notJudged('not-in-file');
    const value = input.unloaded.after - input.unloaded.before;
    return { ...above(Math.abs(value), 5, Math.max(15, 0.005 * Fp)), value };
  };

  const noiseForRfd = (): Judged => {
    if (!baseline) return notJudged('no-baseline');
    return above((100 * 5 * baseline.sd) / (Fp - baseline.mean), 5);
  };

  out.quiet_baseline = quietBaseline();
  out.steady_before = steadyBefore();
  out.pretension = pretension();
  out.stepped_start = steppedStart();
  out.countermovement = countermovement();
  out.onset_agreement = onsetAgreement();
  out.stepped_rise = steppedRise();
  out.double_pull = doublePull();
  out.sustained_effort = sustainedEffort();
  out.peak_at_end = peakAtEnd();
  out.spike = spike();
  out.early_pull = earlyPull();
  out.clipping = clipping(input.plates, baseline?.start ?? span.start, e);
  out.gap = gap();
  out.lift_off = liftOff();
  out.other_foot = otherFoot();
  out.zero_after = zeroAfter();
  out.noise_for_rfd = noiseForRfd();
  out.sample_rate = below(fs, 1000, 500);
  return out;
}

/** 3 or more equal samples in a row at the limit of what the channel can give, or any at 99.5 % of it. */
function clipping(plates: readonly Plate[], start: number, end: number): Judged {
  const known = plates.filter((plate) => plate.range !== undefined);
  if (known.length === 0) return notJudged('not-in-file');
  let clipped = false;
  for (const { force, range } of known) {
    const [low, high] = range!;
    for (let n = start; n <= end; n++) {
      if (force[n]! >= high - 0.005 * (high - low) || force[n]! <= low + 0.005 * (high - low)) clipped = true;
    }
  }
  return { status: clipped ? 'fail' : 'pass' };
}
