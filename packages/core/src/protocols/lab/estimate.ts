import type { ProtocolDocument } from './document.ts';

/** Seconds of one visit to the rig that neither rest nor pull: step on, stand still, take the bar, count. */
const standing = { zero: 5, weigh: 10, setUp: 20, verdict: 5 } as const;

/** How long a protocol takes one athlete who makes every effort, alone on the rig. */
export interface ProtocolEstimate {
  /** From the first step onto the plates to the last verdict, s. */
  readonly seconds: number;
  /** Of those, resting, s. */
  readonly resting: number;
  readonly efforts: number;
}

/**
 * Estimated time of one athlete: one weighing, then for each effort setup, count, pull and verdict, and the shortest rest between
 * two of them. The steps before the rig are not counted. The lengths of weighing and setup are proposals of this program.
 */
export function estimateProtocol({ warmUp, maximal, rest, cue, pull }: ProtocolDocument): ProtocolEstimate {
  const efforts = warmUp.efforts.length + maximal.planned;
  const each = standing.setUp + cue.delay + cue.count + pull.seconds + standing.verdict;
  const submaximalRests = maximal.planned > 0 ? warmUp.efforts.length : Math.max(0, warmUp.efforts.length - 1);
  const resting = submaximalRests * warmUp.rest + Math.max(0, maximal.planned - 1) * rest.minimum;
  return { seconds: standing.zero + standing.weigh + efforts * each + resting, resting, efforts };
}
