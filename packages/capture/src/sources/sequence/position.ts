import type { Run } from '../codec/run.ts';
import type { FieldRole, SourceDescription } from '../description.ts';

/** Where a run stands relative to the newest sample known: 0 follows it, more leaves samples out, less goes back. */
export interface Positions {
  /** Signed samples; `undefined`: the run carries nothing to tell by, so it follows; `wild`: no whole number of steps. */
  ahead(run: Run): number | 'wild' | undefined;
  /** True when runs say where they stand, so that no damage has to be guessed into samples. */
  readonly tell: boolean;
  /** So many samples are known to be missing here; for positions that would otherwise take the next run for late. */
  skip?(samples: number): void;
  /** The second run comes right after the first, or nearly so. */
  follows(first: Run, second: Run): boolean;
  /** The run is the newest now. */
  accept(run: Run): void;
  /** Samples after which positions repeat; infinite when they never do. */
  readonly period: number;
  /** Device time of a run in seconds since the first, unwrapped by its nearness; undefined without such a clock. */
  seconds(run: Run): number | undefined;
}

type Counter = Extract<FieldRole, { role: 'counter' }>;
type Time = Extract<FieldRole, { role: 'time' }>;

/** By the counter where there is one, else by the device's time, else not at all. */
export function positionsOf({ layout, rate }: Pick<SourceDescription, 'layout' | 'rate'>): Positions {
  const fields: readonly FieldRole[] =
    layout === undefined ? [] : layout.kind === 'lines' ? layout.fields : [...layout.head, ...layout.sample];
  const counter = fields.find((field): field is Counter => field.role === 'counter');
  const time = fields.find((field): field is Time => field.role === 'time');
  const clock = time === undefined ? undefined : timeClock(time, rate);
  if (counter !== undefined) {
    const perFrame = layout?.kind === 'frames' && layout.head.some(({ role }) => role === 'counter');
    return counterPositions({ counter, samplesPerStep: perFrame ? layout.samples : 1, clock });
  }
  if (clock !== undefined) return clock;
  return {
    ahead: () => undefined,
    tell: false,
    follows: () => false,
    accept: () => {},
    period: Number.POSITIVE_INFINITY,
    seconds: () => undefined,
  };
}

interface CounterSetup {
  readonly counter: Pick<Counter, 'wrapsAt' | 'step'>;
  /** Samples between two neighbouring counts. */
  readonly samplesPerStep: number;
  readonly clock?: Positions | undefined;
}

/** Positions by a counter, also across its wrap: the nearer way round counts. */
export function counterPositions({ counter, samplesPerStep, clock }: CounterSetup): Positions {
  const step = counter.step ?? 1;
  const modulus = counter.wrapsAt === undefined ? undefined : counter.wrapsAt + 1;
  let expected: number | undefined;
  return {
    period: modulus === undefined ? Number.POSITIVE_INFINITY : (modulus / step) * samplesPerStep,
    ahead(run) {
      if (run.counter === undefined) return undefined;
      if (expected === undefined) return 0;
      let difference = run.counter - expected;
      if (modulus !== undefined) {
        difference = ((difference % modulus) + modulus) % modulus;
        if (difference >= modulus / 2) difference -= modulus;
      }
      const steps = difference / step;
      return Number.isInteger(steps) ? steps * samplesPerStep : 'wild';
    },
    tell: true,
    follows(first, second) {
      if (first.counter === undefined || second.counter === undefined) return false;
      let steps = (second.counter - first.counter) / step;
      if (modulus !== undefined && steps < 0) steps += modulus / step;
      return steps > 0 && steps <= (4 * first.count) / samplesPerStep;
    },
    accept(run) {
      clock?.accept(run);
      if (run.counter === undefined) return;
      expected = run.counter + step * (run.count / samplesPerStep);
      if (modulus !== undefined) expected %= modulus;
    },
    seconds: (run) => clock?.seconds(run),
  };
}

const unitSeconds = { s: 1, ms: 1e-3, us: 1e-6 } as const;

/**
 * Positions by the device's time. The expected time follows the device slowly, so that a rate a little off is no loss; a run
 * more than three quarters of a sample (or of the clock's tick) later than expected left samples out. Losses shorter than the
 * clock's tick cannot be told this way.
 */
function timeClock(time: Time, rate: number): Positions {
  const unit = unitSeconds[time.unit];
  const modulus = time.wrapsAt === undefined ? undefined : (time.wrapsAt + 1) * unit;
  const tolerance = 0.75 * Math.max(1 / rate, time.unit === 's' ? 0 : unit);
  let first: number | undefined;
  /** Unwrapped device time expected next. */
  let expected = 0;
  const unwrapped = (run: Run): number | undefined => {
    if (run.time === undefined) return undefined;
    const raw = run.time * unit;
    if (first === undefined) return raw;
    if (modulus === undefined) return raw;
    return raw + Math.round((expected - raw) / modulus) * modulus;
  };
  return {
    period: modulus === undefined ? Number.POSITIVE_INFINITY : modulus * rate,
    ahead(run) {
      const at = unwrapped(run);
      if (at === undefined) return undefined;
      if (first === undefined) return 0;
      const late = at - expected;
      return Math.abs(late) <= tolerance ? 0 : Math.round(late * rate) || Math.sign(late);
    },
    tell: true,
    follows(first, second) {
      const between = ((second.time ?? 0) - (first.time ?? 0)) * unit * rate;
      return between > 0 && between <= 4 * first.count;
    },
    accept(run) {
      const at = unwrapped(run);
      if (at === undefined) {
        expected += run.count / rate;
        return;
      }
      const late = first === undefined ? 0 : at - expected;
      const base = first === undefined || Math.abs(late) > tolerance ? at : expected + 0.05 * late;
      first ??= at;
      expected = base + run.count / rate;
    },
    seconds(run) {
      const at = unwrapped(run);
      return at === undefined ? undefined : at - (first ?? at);
    },
  };
}
