import type { RawSamples, Recording, UtcInstant } from '@sthene/core';
import type { RecordingDescription } from './description.ts';

/**
 * A recording from its description and its samples.
 *
 * @param raw one array a channel, in order, each `sampleCount` long
 * @param forces one array a platform that has a force, by platform index
 */
export function assembleRecording(
  description: RecordingDescription,
  raw: readonly RawSamples[],
  forces: ReadonlyMap<number, Float64Array>,
): Recording {
  return {
    sampleRate: description.sampleRate,
    rateOrigin: description.rateOrigin,
    ...(description.measuredRate === undefined ? {} : { measuredRate: description.measuredRate }),
    sampleCount: description.sampleCount,
    channels: description.channels.map(({ storage: _, ...channel }, i) => ({ ...channel, raw: raw[i] as RawSamples })),
    platforms: description.platforms.map(({ hasForce: _, ...platform }, i) => {
      const verticalForce = forces.get(i);
      return verticalForce === undefined ? platform : { ...platform, verticalForce };
    }),
    gaps: description.gaps,
    events: description.events,
    ...(description.recordedAt === undefined ? {} : { recordedAt: description.recordedAt as UtcInstant }),
    facts: description.facts,
    notices: description.notices,
  };
}
