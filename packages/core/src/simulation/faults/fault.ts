import type { Verdict } from '../../analysis/result.ts';
import type { SampleSpan } from '../../recording/sample.ts';
import type { DrawnRange, PullParameters } from '../parameters.ts';
import type { RiseCurve } from '../pull-model.ts';
import type { Feet } from '../stance-model.ts';

/** Numbers of one drawn fault, by name, in the units its range states. */
export type Severity = Readonly<Record<string, number>>;

/** Finished samples of both plates, with noise; changed in place. */
export interface PlateSamples {
  readonly sampleRate: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
}

/** What a fault does to a pull. Each part is optional and works at its own level. */
export interface FaultEffect {
  /** Other parameters (an early end, another rate). */
  readonly parameters?: Partial<PullParameters>;
  /** Another course of the rise, as share of the plateau. */
  readonly rise?: (sinceOnset: number, plain: RiseCurve) => number;
  /** Another force above standing, N. `share` is the rise at that time. */
  readonly net?: (t: number, net: number, share: number) => number;
  /** Other forces under the feet, N. */
  readonly feet?: (t: number, feet: Feet) => Feet;
  /** Damage to the finished samples; returns missing samples, if any. */
  readonly samples?: (plates: PlateSamples) => readonly SampleSpan[];
}

/** A named way in which a pull goes wrong. */
export interface Fault {
  readonly id: string;
  readonly title: string;
  /** What happens, in one sentence. */
  readonly what: string;
  /** Verdicts that are right for it; never `counts`. */
  readonly expected: readonly Exclude<Verdict, 'counts'>[];
  /** Each number of its severity is drawn evenly from here, in this order. */
  readonly ranges: Readonly<Record<string, DrawnRange>>;
  /** Such small severities that the permitted sway of a good pull can hide them: scored apart. */
  readonly marginal?: { readonly when: (severity: Severity) => boolean; readonly words: string };
  /** Brings drawn numbers back to what this athlete can do. */
  readonly bounded?: (p: PullParameters, severity: Severity) => Severity;
  readonly effect: (p: PullParameters, severity: Severity) => FaultEffect;
}

/** Reads a number a fault declared; a missing one is a programming error. */
export function severityOf(severity: Severity, name: string): number {
  const value = severity[name];
  if (value === undefined) throw new Error(`fault number "${name}" was not drawn`);
  return value;
}
