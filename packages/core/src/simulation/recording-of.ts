import type { Channel, Recording } from '../recording/recording.ts';
import type { UtcInstant } from '../recording/sample.ts';
import type { SimulatedPull } from './simulate.ts';

/**
 * A recording as the plates would have delivered it: channels `left` and `right` in N, range of the plates declared,
 * missing samples as NaN and in the gaps. It carries nothing of the truth.
 */
export function recordingOf(simulated: SimulatedPull, recordedAt?: UtcInstant): Recording {
  const high = simulated.truth.parameters.plateRange;
  const channel = (name: string, raw: Float64Array): Channel => ({
    name,
    unit: 'N',
    raw,
    scale: 1,
    offset: 0,
    rawRange: [-high, high],
  });
  return {
    sampleRate: simulated.sampleRate,
    rateOrigin: 'declared',
    sampleCount: simulated.left.length,
    channels: [channel('left', simulated.left), channel('right', simulated.right)],
    platforms: [],
    gaps: simulated.gaps,
    events: [],
    ...(recordedAt === undefined ? {} : { recordedAt }),
    facts: { origin: 'simulated' },
    notices: [],
  };
}
