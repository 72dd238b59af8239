import { type DrawnRange, goodPull, type PullPace, type PullParameters, type SimulatedLimbs } from './parameters.ts';
import type { SeededRandom } from './random.ts';
import type { RiseForm } from './rise.ts';

/** What a caller may pin; everything else is drawn from the ranges of a good pull. */
export interface PullSpec {
  readonly sampleRate?: number;
  readonly limbs?: SimulatedLimbs;
  /** kg; ignored where `bodyWeight` is given. */
  readonly bodyMass?: number;
  readonly bodyWeight?: number;
  readonly netForce?: number;
  readonly pace?: PullPace;
  readonly form?: RiseForm;
  readonly halfTime?: number;
  readonly hold?: number;
  readonly tension?: number;
  readonly breathing?: number;
  readonly drift?: number;
  readonly plateNoise?: number;
  readonly quantum?: number;
  readonly plateRange?: number;
  readonly standingShareRight?: number;
  readonly pullShareRight?: number;
  /** True: the recording begins before the athlete steps on; stands still for the usual time after that. */
  readonly stepOn?: boolean;
  readonly stepOff?: boolean;
  /** Which fault, and numbers of that fault to pin. */
  readonly fault?: string;
  readonly severity?: Readonly<Record<string, number>>;
}

const standardGravity = 9.80665; // m/s^2, 3rd CGPM 1901
const settling = 3.2; // s from the first contact to a stance that counts as quiet

/**
 * Parameters of one good pull. Every range is drawn in a fixed order whether pinned or not, so pinning one value leaves the
 * others of the same seed as they were.
 */
export function drawParameters(spec: PullSpec, random: SeededRandom): PullParameters {
  const draw = (range: DrawnRange): number => random.between(range[0], range[1]);
  const bodyMass = draw(goodPull.bodyMass);
  const bodyWeight = spec.bodyWeight ?? (spec.bodyMass ?? bodyMass) * standardGravity;
  const netForceShare = draw(goodPull.netForceShare);
  const drawnPace = random.pick(goodPull.paces);
  const drawnForm = random.pick(goodPull.forms);
  const pace = spec.pace ?? drawnPace;
  const form = spec.form ?? drawnForm;
  const halfTime = draw(goodPull.halfTime[pace]);
  const powerBend = draw(goodPull.powerBend);
  const sigmoidBend = draw(goodPull.sigmoidBend);
  const slowShare = draw(goodPull.slowShare);
  const slowTime = draw(goodPull.slowTime);
  const standing = draw(goodPull.standing);
  const hold = draw(goodPull.hold);
  const release = draw(goodPull.release);
  const after = draw(goodPull.after);
  const tensionShare = draw(goodPull.tensionShare);
  const fatigue = draw(goodPull.fatigue);
  const fatigueFrom = draw(goodPull.fatigueFrom);
  const oscillation = (amplitude: DrawnRange, frequency: DrawnRange) => ({
    amplitude: draw(amplitude),
    frequency: draw(frequency),
    phase: random.uniform(),
  });
  const tremor = oscillation(goodPull.tremorAmplitude, goodPull.tremorFrequency);
  const wander = oscillation(goodPull.wanderAmplitude, goodPull.wanderFrequency);
  const drawnBreathing = oscillation(goodPull.breathingAmplitude, goodPull.breathingFrequency);
  const exchange = oscillation(goodPull.exchangeAmplitude, goodPull.exchangeFrequency);
  const standingShare = draw(goodPull.standingShareRight);
  const shareShift = draw(goodPull.pullShareShift);
  const drawnDrift = draw(goodPull.drift);
  const plateNoise = draw(goodPull.plateNoise);

  const drift = spec.drift ?? drawnDrift;
  const breathing = { ...drawnBreathing, amplitude: spec.breathing ?? drawnBreathing.amplitude };
  const room = Math.max(0, 25 - breathing.amplitude - Math.abs(drift));
  const standingShareRight = spec.standingShareRight ?? standingShare;
  return {
    sampleRate: spec.sampleRate ?? 1000,
    limbs: spec.limbs ?? 'both',
    bodyWeight,
    netForce: spec.netForce ?? netForceShare * bodyWeight,
    pace,
    rise: {
      form,
      halfTime: spec.halfTime ?? halfTime,
      bend: form === 'sigmoid' ? sigmoidBend : powerBend,
      slowShare,
      slowTime,
    },
    onset: standing + (spec.stepOn ? 0.5 + settling : 0),
    hold: spec.hold ?? hold,
    release,
    after,
    tension: spec.tension ?? tensionShare * room,
    fatigue,
    fatigueFrom,
    tremor,
    wander,
    breathing,
    exchange,
    standingShareRight,
    pullShareRight: spec.pullShareRight ?? standingShareRight + shareShift,
    drift,
    plateNoise: spec.plateNoise ?? plateNoise,
    quantum: spec.quantum ?? 0,
    plateRange: spec.plateRange ?? 10_000,
    ...(spec.stepOn ? { stepOnAt: 0.5 } : {}),
    stepOff: spec.stepOff ?? false,
  };
}
