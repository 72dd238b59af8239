import type { SampleSpan } from '../recording/sample.ts';
import { drawParameters, type PullSpec } from './draw.ts';
import { sineOfTurns } from './exact-math.ts';
import type { Fault, FaultEffect, Severity } from './faults/fault.ts';
import { faultById } from './faults/index.ts';
import type { PullParameters } from './parameters.ts';
import { addPlateNoise } from './plate-noise.ts';
import { netForceAt, plainRise, type RiseCurve } from './pull-model.ts';
import { type SeededRandom, seededRandom } from './random.ts';
import { feetAt, presence, standingForceAt } from './stance-model.ts';

/** What is known of a simulated pull. Times in s from the first sample; forces in N. */
export interface PullTruth {
  /** When the rise begins. `sample` is seconds times rate and usually lies between two samples. */
  readonly onset: { readonly seconds: number; readonly sample: number };
  /** Largest sum of the curve before noise and before damage to the samples, between onset and letting go. */
  readonly peak: { readonly seconds: number; readonly sample: number; readonly force: number };
  /** When the athlete begins to let go. */
  readonly end: { readonly seconds: number; readonly sample: number };
  readonly bodyWeight: number;
  /** What three seconds of standing still on the same plates would have weighed. */
  readonly weighed: number;
  readonly fault: string;
  /** Numbers of the fault; empty for a good pull. */
  readonly severity: Severity;
  readonly parameters: PullParameters;
}

/** Samples of two plates, N, positive when pressed; missing samples are NaN and listed. */
export interface SimulatedPull {
  readonly sampleRate: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly gaps: readonly SampleSpan[];
  readonly truth: PullTruth;
}

const stream = { parameters: 1, fault: 2, leftNoise: 3, rightNoise: 4, weighing: 5 } as const;

/**
 * One isometric pull with known truth, wholly decided by the specification and the seed, bit for bit on every machine.
 *
 * Parameters that the specification leaves open are drawn from `goodPull`. The pull, the fault and the noise of each plate
 * have random streams of their own: the good twin of a faulty pull is the same specification without its fault.
 * Throws for an unknown fault or a fault number the fault does not have.
 */
export function simulatePull(spec: PullSpec, seed: number): SimulatedPull {
  const drawn = drawParameters(spec, seededRandom(seed, stream.parameters));
  const fault = spec.fault === undefined || spec.fault === 'none' ? undefined : faultById(spec.fault);
  const severity = fault ? drawSeverity(fault, spec.severity, drawn, seededRandom(seed, stream.fault)) : {};
  const effect: FaultEffect = fault ? fault.effect(drawn, severity) : {};
  const p: PullParameters = { ...drawn, ...effect.parameters };
  const { left, right, peak } = cleanPlates(p, effect);
  addPlateNoise(left, p, seededRandom(seed, stream.leftNoise));
  addPlateNoise(right, p, seededRandom(seed, stream.rightNoise));
  clip(left, p.plateRange);
  clip(right, p.plateRange);
  const gaps = effect.samples?.({ sampleRate: p.sampleRate, left, right }) ?? [];
  const at = (seconds: number) => ({ seconds, sample: seconds * p.sampleRate });
  return {
    sampleRate: p.sampleRate,
    left,
    right,
    gaps,
    truth: {
      onset: at(p.onset),
      peak: { ...at(peak.sample / p.sampleRate), ...peak },
      end: at(p.onset + p.hold),
      bodyWeight: p.bodyWeight,
      weighed: weighed(p, seededRandom(seed, stream.weighing)),
      fault: fault?.id ?? 'none',
      severity,
      parameters: p,
    },
  };
}

function drawSeverity(fault: Fault, pinned: Severity | undefined, p: PullParameters, random: SeededRandom): Severity {
  const severity: Record<string, number> = {};
  for (const [name, [low, high]] of Object.entries(fault.ranges)) {
    const drawn = random.between(low, high);
    severity[name] = pinned?.[name] ?? drawn;
  }
  for (const name of Object.keys(pinned ?? {})) {
    if (!(name in severity)) throw new Error(`fault "${fault.id}" has no number "${name}"`);
  }
  return fault.bounded?.(p, severity) ?? severity;
}

function cleanPlates(p: PullParameters, effect: FaultEffect) {
  const count = Math.floor((p.onset + p.hold + p.release + p.after) * p.sampleRate);
  const left = new Float64Array(count);
  const right = new Float64Array(count);
  const plain = plainRise(p);
  const rise: RiseCurve = effect.rise ? (s) => effect.rise!(s, plain) : plain;
  const peak = { sample: 0, force: Number.NEGATIVE_INFINITY };
  for (let n = 0; n < count; n++) {
    const t = n / p.sampleRate;
    let net = netForceAt(t, p, rise);
    if (effect.net) net = effect.net(t, net, rise(t - p.onset));
    let feet = feetAt(t, standingForceAt(t, p), net * presence(t, p), p);
    if (effect.feet) feet = effect.feet(t, feet);
    left[n] = feet.left;
    right[n] = feet.right;
    const sum = feet.left + feet.right;
    if (t >= p.onset && t <= p.onset + p.hold && sum > peak.force) {
      peak.sample = n;
      peak.force = sum;
    }
  }
  return { left, right, peak };
}

function clip(force: Float64Array, range: number): void {
  for (let n = 0; n < force.length; n++) if (force[n]! > range) force[n] = range;
}

/** Mean of a 3 s stand-still: breathing at a phase of its own does not cancel wholly, plate noise nearly does. */
function weighed(p: PullParameters, random: SeededRandom): number {
  const duration = 3;
  const phase = random.uniform();
  const turns = p.breathing.frequency * duration;
  const cosine = (x: number): number => sineOfTurns(x + 0.25);
  const breathing = (p.breathing.amplitude * (cosine(phase) - cosine(phase + turns))) / (6.283185307179586 * turns);
  const plates = p.limbs === 'both' ? 2 : 1;
  const noise = (p.plateNoise * Math.sqrt(plates) * random.gaussian()) / Math.sqrt(duration * p.sampleRate);
  return p.bodyWeight + breathing + noise;
}
