import type { AnalysisRequest } from '../src/analysis/index.ts';
import { foundJumps, type JudgedJump } from '../src/jumps/index.ts';
import { forcesOf } from '../src/recording/index.ts';
import { type JumpSpec, type JumpTruth, recordingOfJumps, simulateJump } from '../src/simulation/index.ts';
import type { UncertaintySources } from '../src/uncertainty/index.ts';
import { jumpRequest } from './jumps.ts';
import { checkedRig } from './uncertain-pulls.ts';

const tests = {
  countermovement: 'countermovement-jump',
  squat: 'squat-jump',
  drop: 'drop-jump',
  repeated: 'repeated-hops',
} as const;

const selection = {
  inputs: [
    { from: { kind: 'channel', index: 0 }, part: 'left' },
    { from: { kind: 'channel', index: 1 }, part: 'right' },
  ],
} as const;

/**
 * A simulated jump on two plates, found but not measured.
 *
 * @param shown what left and right show of it
 */
export function judgedJump(
  seed: number,
  spec: JumpSpec = {},
  more: Partial<AnalysisRequest> & { readonly jumps?: string } = {},
  shown: (plates: readonly Float64Array[]) => readonly Float64Array[] = (plates) => plates,
): { readonly judged: JudgedJump; readonly request: AnalysisRequest; readonly truth: JumpTruth } {
  const jump = simulateJump({ plateNoise: 0.5, sway: 0, ...spec }, seed);
  const [left = jump.left, right = jump.right] = shown([jump.left, jump.right]);
  const forces = forcesOf(recordingOfJumps([{ ...jump, left, right }]), selection);
  if (!forces.ok) throw new Error(forces.reason);
  const request = jumpRequest(forces.value, tests[spec.kind ?? 'countermovement'], { gravity: 9.80665, ...more });
  return { judged: onlyJump(request), request, truth: jump.truth };
}

export function onlyJump(request: AnalysisRequest): JudgedJump {
  const { jumps } = foundJumps(request);
  if (!jumps.ok || jumps.value[0] === undefined) throw new Error('no jump');
  return jumps.value[0];
}

/** A rig as a check found it, a weight that scattered by 1 N, two clocks: what a jump might be measured with. */
export const jumpSources: UncertaintySources = {
  rig: checkedRig,
  weight: { standard: 1, seconds: 3, of: 'standing-before' },
  synchronisation: 0.0005,
  noise: { total: Math.hypot(0.8, 0.6), left: 0.8, right: 0.6 },
};
