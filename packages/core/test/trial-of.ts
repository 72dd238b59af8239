import type { Baseline, EffortEvents, Onset } from '../src/analysis/events.ts';
import type { BodyWeight, TrialContext } from '../src/analysis/trial-context.ts';
import type { Method } from '../src/methods/method.ts';
import { have, lack, type Outcome, type Reason } from '../src/outcome.ts';
import type { Protocol } from '../src/protocols/protocol.ts';
import type { Forces, PlateForce } from '../src/recording/forces.ts';
import type { SampleSpan } from '../src/recording/sample.ts';

/** What a test says of its trial; everything else gets a plain default. */
export interface TrialOptions {
  readonly sampleRate?: number;
  readonly total?: ArrayLike<number>;
  readonly left?: ArrayLike<number>;
  readonly right?: ArrayLike<number>;
  readonly plates?: readonly PlateForce[];
  readonly unit?: string;
  readonly gaps?: { readonly filled?: readonly SampleSpan[]; readonly open?: readonly SampleSpan[] };
  readonly baseline?: SampleSpan | Reason;
  readonly halfRise: number;
  readonly end?: number;
  readonly onset?: number | Reason;
  readonly quietLevel?: number;
  readonly weight?: number | Reason;
  readonly weightFrom?: BodyWeight['from'];
  readonly gravity?: number;
  readonly protocol?: Partial<Protocol>;
  readonly exponent?: number;
  /** The method's onset rule. */
  readonly rule?: string;
  readonly cue?: number;
  readonly unloaded?: { readonly before: number; readonly after: number };
  readonly onsets?: Readonly<Record<string, number | Reason>>;
}

const protocol: Protocol = {
  id: 'imtp',
  version: 1,
  title: 'Mid-thigh pull',
  summary: '',
  load: 'weight',
  limbs: 'both',
  pool: 'long',
  cue: '',
  pullSeconds: { planned: 5, warnUnder: 2, failUnder: 1 },
  restSeconds: 120,
  maximalTrials: { minimum: 2, planned: 3, maximum: 5 },
  setupFields: [],
  cautions: [],
  sources: [],
};

/** A trial context with given events over a given curve; levels are measured from the curve as the definitions say. */
export function trialOf(options: TrialOptions): TrialContext {
  const left = options.left && Float64Array.from(options.left);
  const right = options.right && Float64Array.from(options.right);
  const total = options.total
    ? Float64Array.from(options.total)
    : Float64Array.from(left ?? [], (value, i) => value + (right?.[i] ?? 0));
  const sampleRate = options.sampleRate ?? 1000;
  const unit = options.unit ?? 'N';
  const forces: Forces = {
    sampleRate,
    sampleCount: total.length,
    unit,
    total,
    ...(left ? { left } : {}),
    ...(right ? { right } : {}),
    plates: options.plates ?? [],
    gaps: { filled: options.gaps?.filled ?? [], open: options.gaps?.open ?? [] },
  };
  const end = options.end ?? total.length - 1;
  const baseline = baselineOf(total, options.baseline ?? { start: 0, end: Math.min(sampleRate, options.halfRise) });
  const peak = peakOf(total, options.halfRise, end);
  const onset = onsetOf(options.onset ?? 'onset-not-found', baseline);
  const events: EffortEvents = {
    span: { start: 0, end: total.length },
    anchor: options.halfRise + 1,
    anchorMean: peak.force,
    quietLevel: options.quietLevel ?? (baseline.ok ? baseline.value.mean : 0),
    halfLevel: 0,
    halfRise: options.halfRise,
    end,
    peak,
    baseline,
    onset,
    riseStart: baseline.ok ? have(riseStart(total, options.halfRise, baseline.value.mean, peak.force)) : baseline,
  };
  const onsets = Object.fromEntries(
    Object.entries(options.onsets ?? {}).map(([rule, index]) => [rule, onsetOf(index, baseline)]),
  );
  const weight: Outcome<BodyWeight> =
    options.weight === undefined
      ? lack('no-body-weight')
      : typeof options.weight === 'number'
        ? have({ value: options.weight, unit, from: options.weightFrom ?? 'weighing' })
        : lack(options.weight);
  return {
    forces,
    unfiltered: forces,
    protocol: { ...protocol, ...options.protocol },
    method: {
      allometricExponent: options.exponent ?? 2 / 3,
      onset: { rule: options.rule ?? 'local-line', version: 1 },
    } as Method,
    events,
    onset,
    bodyWeight: weight,
    gravity: options.gravity ?? 9.80665,
    onsets: () => onsets,
    ...(options.cue === undefined ? {} : { cue: options.cue }),
    ...(options.unloaded ? { unloaded: options.unloaded } : {}),
  };
}

function baselineOf(total: Float64Array, span: SampleSpan | Reason): Outcome<Baseline> {
  if (typeof span === 'string') return lack(span);
  const piece = total.subarray(span.start, span.end);
  const mean = piece.reduce((sum, force) => sum + force, 0) / piece.length;
  const squares = piece.reduce((sum, force) => sum + (force - mean) ** 2, 0);
  return have({ ...span, mean, sd: Math.sqrt(squares / (piece.length - 1)) });
}

function peakOf(total: Float64Array, halfRise: number, end: number): { index: number; force: number } {
  const index = total
    .subarray(halfRise + 1, end + 1)
    .reduce((best, force, i, piece) => (force > (piece[best] ?? 0) ? i : best), 0);
  return { index: index + halfRise + 1, force: total[index + halfRise + 1] ?? 0 };
}

function onsetOf(index: number | Reason, baseline: Outcome<Baseline>): Outcome<Onset> {
  if (typeof index === 'string') return lack(index);
  const base = baseline.ok ? baseline.value : { start: 0, end: 1, mean: 0, sd: 0 };
  return have({
    index,
    rule: 'five-sd',
    threshold: base.mean + 5 * base.sd,
    thresholdUnit: 'N',
    baseline: base,
    search: { start: base.start, end: Math.ceil(index) + 1 },
  });
}

function riseStart(total: Float64Array, halfRise: number, mean: number, peak: number): number {
  let i = halfRise - 1;
  while (i > 0 && (total[i] ?? 0) > mean + 0.1 * (peak - mean)) i--;
  return i;
}

/** A curve from a function of time in seconds, sampled from `from` to `to` inclusive. */
export const sampled = (sampleRate: number, from: number, to: number, force: (time: number) => number): Float64Array =>
  Float64Array.from({ length: Math.round((to - from) * sampleRate) + 1 }, (_, i) => force(from + i / sampleRate));
