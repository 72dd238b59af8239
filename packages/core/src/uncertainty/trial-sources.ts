import type { TrialContext } from '../analysis/trial-context.ts';
import { sampleNoise } from './sample-noise.ts';
import type { CheckedRig, SampleNoise, UncertaintySources, WeightSource } from './sources.ts';
import { weightFromMeans, weightFromStanding } from './stand-still.ts';

/** What is known of a trial's measurement besides its curve. */
export interface KnownOfTrial {
  /** The rig's last check before the trial. */
  readonly rig?: CheckedRig | undefined;
  /** Means of successive seconds of the weighing, N. */
  readonly weighing?: readonly number[] | undefined;
  /** SD of the time offset between plates, s; 0 where all run on one clock. */
  readonly synchronisation?: number | undefined;
}

/** Sources of a trial's uncertainty: what is known besides, noise and standing from the curve itself. */
export const sourcesOf = (trial: TrialContext, known: KnownOfTrial): UncertaintySources =>
  sourcesFrom(trial.bodyWeight, known, () => weightFromStanding(trial), sampleNoise(trial));

/**
 * Sources of an effort of any kind.
 *
 * @param standing how sure W is from the curve, asked for where no weighing tells
 */
export function sourcesFrom(
  bodyWeight: TrialContext['bodyWeight'],
  { rig, weighing, synchronisation }: KnownOfTrial,
  standing: () => WeightSource | undefined,
  noise: SampleNoise | undefined,
): UncertaintySources {
  const from = bodyWeight.ok ? bodyWeight.value.from : 'given';
  const weighed = from === 'weighing' && weighing !== undefined ? weightFromMeans(weighing, 'weighing') : undefined;
  const weight = from === 'given' ? undefined : (weighed ?? standing());
  return {
    ...(rig === undefined ? {} : { rig }),
    ...(weight === undefined ? {} : { weight }),
    ...(noise === undefined ? {} : { noise }),
    ...(synchronisation === undefined ? {} : { synchronisation }),
  };
}
