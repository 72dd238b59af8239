import { type Fault, faultById, faults, type PullSpec } from '@sthene/core';

/** What a row of the table is about: good pulls of a sort, or one fault. */
export interface Kind {
  readonly id: string;
  readonly title: string;
  readonly good: boolean;
  readonly spec: PullSpec;
  /** How many times the number of pulls asked for. */
  readonly weight: number;
}

/** One pull to simulate and judge. */
export interface PlannedPull {
  readonly kind: Kind;
  readonly seed: number;
  readonly bodyMass: number;
  readonly plateNoise: number;
  readonly spec: PullSpec;
}

export interface PlanOptions {
  readonly pulls: number;
  readonly seed: number;
  /** SD of each plate, N. */
  readonly noise: readonly number[];
  /** kg. */
  readonly bodyWeight: readonly number[];
  /** Hz. */
  readonly rate: number;
}

/** The ranges of the specification: 45 to 140 kg, 0.2 to 5 N. */
export const defaults: PlanOptions = {
  pulls: 240,
  seed: 1,
  noise: [0.2, 0.5, 1, 2, 5],
  bodyWeight: [45, 60, 75, 90, 110, 140],
  rate: 1000,
};

const goodKinds: readonly Kind[] = [
  { id: 'good', title: 'good pull', good: true, spec: {}, weight: 4 },
  { id: 'good-one-leg', title: 'good single-leg pull', good: true, spec: { limbs: 'left' }, weight: 1 },
  {
    id: 'good-step-on',
    title: 'good pull in a file that begins and ends with empty plates',
    good: true,
    spec: { stepOn: true, stepOff: true },
    weight: 1,
  },
];

const faultKind = (fault: Fault): Kind => ({
  id: fault.id,
  title: fault.title,
  good: false,
  spec: { fault: fault.id },
  weight: 1,
});

/** Good kinds first, then every fault. */
export const kinds: readonly Kind[] = [...goodKinds, ...faults.map(faultKind)];

/** Every pull of the scoring: each kind walks through all pairs of noise and body mass evenly. */
export function plannedPulls(options: PlanOptions): PlannedPull[] {
  const planned: PlannedPull[] = [];
  kinds.forEach((kind, kindNumber) => {
    const count = options.pulls * kind.weight;
    for (let i = 0; i < count; i++) {
      const plateNoise = options.noise[i % options.noise.length]!;
      const bodyMass = options.bodyWeight[Math.floor(i / options.noise.length) % options.bodyWeight.length]!;
      const spec = { sampleRate: options.rate, ...kind.spec, plateNoise, bodyMass };
      planned.push({ kind, seed: options.seed * 1_000_000 + kindNumber * 10_000 + i, bodyMass, plateNoise, spec });
    }
  });
  return planned;
}

/** Words for a fault so small that permitted sway can hide it, or undefined. */
export function marginalWords(kind: Kind): string | undefined {
  return kind.good ? undefined : faultById(kind.id).marginal?.words;
}
