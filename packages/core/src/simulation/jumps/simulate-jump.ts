import type { JumpKind } from '../../protocols/protocol.ts';
import type { Channel, Recording } from '../../recording/recording.ts';
import { sineOfTurns } from '../exact-math.ts';
import { seededRandom } from '../random.ts';
import { type JumpParameters, usualJump } from './parameters.ts';
import { type JumpScript, jumpScript, type Stretch } from './script.ts';

/** What is known of a simulated jump. Times in s from the first sample. */
export interface JumpTruth extends Omit<JumpScript, 'stretches'> {
  readonly parameters: JumpParameters;
  readonly weight: number;
  /** Rise after take-off, m; of a drop jump also the fall. */
  readonly height: number;
  readonly flightTime: number;
}

/** Samples of two plates, N, positive when pressed. */
export interface SimulatedJump {
  readonly sampleRate: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly truth: JumpTruth;
}

/** What a specification may set; everything else is that of a usual jump of its kind. */
export type JumpSpec = Partial<Omit<JumpParameters, 'kind'>> & { readonly kind?: JumpKind };

const stream = { left: 11, right: 12, sway: 13 } as const;

/**
 * One jump (or one series of hops) with known truth, wholly decided by specification and seed.
 *
 * The movement of the centre of mass is given in closed form and the force follows from it: F = m (g + a) on the ground, nothing in
 * the air. Height, take-off, touchdown and onset are therefore known, not measured.
 */
export function simulateJump(spec: JumpSpec = {}, seed = 1): SimulatedJump {
  const parameters: JumpParameters = { ...usualJump[spec.kind ?? 'countermovement'], ...spec };
  const script = jumpScript(parameters);
  const total = cleanForce(parameters, script, seed);
  const noise = [seededRandom(seed, stream.left), seededRandom(seed, stream.right)] as const;
  const left = new Float64Array(total.length);
  const right = new Float64Array(total.length);
  for (let i = 0; i < total.length; i++) {
    const force = total[i] as number;
    const share = parameters.shareRight * force;
    left[i] = force - share + parameters.zero + parameters.plateNoise * noise[0].gaussian();
    right[i] = share + parameters.zero + parameters.plateNoise * noise[1].gaussian();
  }
  const { stretches: _, ...known } = script;
  return {
    sampleRate: parameters.sampleRate,
    left,
    right,
    truth: {
      ...known,
      parameters,
      weight: parameters.mass * parameters.gravity,
      height: parameters.height,
      flightTime: script.touchdown - script.takeOff,
    },
  };
}

/** The sum of the plates without noise, N. Standing sways; nothing else does, so that the truth stays the truth. */
export function cleanForce(p: JumpParameters, script: JumpScript, seed: number): Float64Array {
  const weight = p.mass * p.gravity;
  const phase = seededRandom(seed, stream.sway).uniform();
  const { stretches } = script;
  let at = 0;
  return Float64Array.from({ length: Math.floor(script.end * p.sampleRate) + 1 }, (_, i) => {
    const time = i / p.sampleRate;
    while (at < stretches.length - 1 && time >= (stretches[at] as Stretch).end) at++;
    const stretch = stretches[at] as Stretch;
    if (stretch.on === 'air') return 0;
    const force = Math.max(0, p.mass * (p.gravity + stretch.at(time).acceleration));
    const standing = at === 0 || at === stretches.length - 1;
    return standing ? force + weight * Math.SQRT2 * p.sway * sineOfTurns(p.swayFrequency * time + phase) : force;
  });
}

/** A recording as the plates would have delivered it: channels `left` and `right` in N. It carries nothing of the truth. */
export function recordingOfJumps(jumps: readonly SimulatedJump[]): Recording {
  const [first] = jumps;
  if (first === undefined) throw new RangeError('No jumps to record.');
  const high = first.truth.parameters.plateRange;
  const channel = (name: 'left' | 'right'): Channel => ({
    name,
    unit: 'N',
    raw: joined(jumps.map((jump) => jump[name])),
    scale: 1,
    offset: 0,
    rawRange: [-high, high],
  });
  const left = channel('left');
  return {
    sampleRate: first.sampleRate,
    rateOrigin: 'declared',
    sampleCount: left.raw.length,
    channels: [left, channel('right')],
    platforms: [],
    gaps: [],
    events: [],
    facts: { origin: 'simulated' },
    notices: [],
  };
}

function joined(pieces: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}
