import { forcesOfSpan } from '@sthene/capture';
import type { Forces, Outcome, Recording } from '@sthene/core';
import type { OriginFacts } from './keep-trial.ts';

/** Forces of a stored live trial, cells of one plate added up as they were live. */
export function forcesOfLive(recording: Recording, facts: OriginFacts): Outcome<Forces> {
  return forcesOfSpan(
    {
      sampleRate: recording.sampleRate,
      channels: facts.channels,
      raw: facts.channels.map((_, c) => samplesOf(recording, c)),
    },
    facts.zeros,
    facts.unit,
  );
}

function samplesOf({ channels }: Recording, index: number): Float64Array {
  const raw = channels[index]?.raw ?? new Float64Array(0);
  return raw instanceof Float64Array ? raw : Float64Array.from(raw);
}
