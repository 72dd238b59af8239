import { type AnalysisRequest, contextsOf, type TrialContext } from '../src/analysis/index.ts';
import { type PullSpec, simulatePull } from '../src/simulation/index.ts';
import { sampleNoise, type UncertaintySources } from '../src/uncertainty/index.ts';
import { forcesOfCurve, request } from './pulls.ts';

/** The two plates of a simulated pull as forces. */
export function platesOf(left: Float64Array, right: Float64Array, sampleRate: number) {
  const total = left.map((value, i) => value + (right[i] as number));
  const plates = [
    { name: 'left', side: 'left', force: left },
    { name: 'right', side: 'right', force: right },
  ] as const;
  return forcesOfCurve(total, sampleRate, { left, right, plates });
}

/** A short simulated pull on two plates, found but not measured. */
export function pullContext(
  seed: number,
  weight: 'weighing' | 'given' | 'baseline' = 'weighing',
  spec: PullSpec = {},
): { readonly trial: TrialContext; readonly request: AnalysisRequest } {
  const pull = simulatePull({ hold: 1.2, plateNoise: 0.5, ...spec }, seed);
  const { weighed } = pull.truth;
  const asked = request(
    platesOf(pull.left, pull.right, pull.sampleRate),
    weight === 'baseline' ? {} : { bodyWeight: { value: weighed, from: weight } },
  );
  return { trial: onlyTrial(asked), request: asked };
}

export function onlyTrial(asked: AnalysisRequest): TrialContext {
  const { contexts } = contextsOf(asked);
  if (!contexts.ok || contexts.value[0] === undefined) throw new Error('no effort');
  return contexts.value[0];
}

/** A rig as a check with 200 kg on each plate might find it. */
export const checkedRig = {
  gain: 0.002,
  plateGain: 0.003,
  repeatability: 1.5,
  linearity: 2,
  largestForce: 1962,
  growth: 0.01,
} as const;

/** All sources, with the noise of the trial itself. */
export function sourcesFor(trial: TrialContext, more: Partial<UncertaintySources> = {}): UncertaintySources {
  const noise = sampleNoise(trial);
  return {
    rig: checkedRig,
    weight: { standard: 2.5, seconds: 3, of: 'weighing' },
    synchronisation: 0.0005,
    ...(noise === undefined ? {} : { noise }),
    ...more,
  };
}

/** Sources without one that is named; what is absent is not known. */
export const withoutSource = (
  sources: UncertaintySources,
  ...names: (keyof UncertaintySources)[]
): UncertaintySources =>
  Object.fromEntries(Object.entries(sources).filter(([name]) => !names.includes(name as keyof UncertaintySources)));
