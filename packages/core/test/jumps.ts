import type { AnalysisRequest, TrialResult } from '../src/analysis/index.ts';
import { analyse } from '../src/analysis/index.ts';
import { jumpMethodRegistry } from '../src/jumps/index.ts';
import { defaultMethod } from '../src/methods/index.ts';
import { protocolRegistry } from '../src/protocols/index.ts';
import type { Forces } from '../src/recording/index.ts';
import { forcesOfCurve } from './pulls.ts';

/** A force from straight lines between nodes (time in s, force in N), sampled at a rate from 0 to the last node, both included. */
export function throughNodes(nodes: readonly (readonly [number, number])[], rate = 1000): Float64Array {
  const [last] = nodes.at(-1) as readonly [number, number];
  return Float64Array.from({ length: Math.round(last * rate) + 1 }, (_, i) => {
    const t = i / rate;
    let after = 1;
    while (after < nodes.length - 1 && t > (nodes[after] as readonly [number, number])[0]) after++;
    const [t0, f0] = nodes[after - 1] as readonly [number, number];
    const [t1, f1] = nodes[after] as readonly [number, number];
    return f0 + ((f1 - f0) * (t - t0)) / (t1 - t0);
  });
}

/** Body weight of the synthetic jump, N: 70 kg at 9.81 m/s^2. */
export const jumpWeight = 686.7;

/** Net force of the synthetic jump by nodes, N. */
export const jumpNodes: readonly (readonly [number, number])[] = [
  [0, 0],
  [1, 0],
  [1.2, -450],
  [1.35, 0],
  [1.55, 787.5],
  [1.75, 850],
  [1.85, -686.7],
  [2.36, -686.7],
  [2.41, 1800],
  [2.56, 0],
  [3, 0],
];

/**
 * The synthetic countermovement jump of the check values: 70 kg, 1000 Hz, net force through nodes, a ripple of 2 N while standing
 * and of 1 N in flight.
 */
export function syntheticJump(): Float64Array {
  const net = throughNodes(jumpNodes);
  return net.map((force, i) => {
    const ripple = i < 1000 ? 2 : i >= 1860 && i <= 2350 ? 1 : 0;
    return jumpWeight + force + (i % 2 === 0 ? ripple : -ripple);
  });
}

/** A request for a jump test with the built-in jump method, or the one with this id. */
export function jumpRequest(
  forces: Forces | Float64Array,
  test: string,
  more: Partial<AnalysisRequest> & { readonly jumps?: string } = {},
): AnalysisRequest {
  const { jumps, ...rest } = more;
  const protocol = protocolRegistry.get(test);
  const jumpMethod = jumpMethodRegistry.get(jumps ?? 'jumps')?.method;
  if (protocol === undefined || jumpMethod === undefined) throw new Error(`no ${test} or no ${jumps}`);
  return {
    forces: forces instanceof Float64Array ? forcesOfCurve(forces) : forces,
    protocol,
    method: defaultMethod,
    jumpMethod,
    gravity: 9.81,
    efforts: 'largest',
    ...rest,
  };
}

/** The first trial of an analysis. */
export function jumpTrial(request: AnalysisRequest): TrialResult {
  const [trial] = analyse(request).trials;
  if (trial === undefined) throw new Error('no trial');
  return trial;
}

/** A metric's value in a result; throws with its reason when there is none. */
export function valueIn(trial: TrialResult, id: string): number {
  const measured = trial.metrics[id];
  if (measured === undefined) throw new Error(`There is no ${id}.`);
  if ('reason' in measured) throw new Error(`${id}: ${measured.reason}`);
  return measured.value;
}
