import type { SourceDescription } from '../description.ts';
import { Plates } from './plates.ts';
import { virtualRate } from './virtual-plates.ts';

/** The description of virtual plates that play a script: what they send, said before they are started. */
export function virtualDescription(name: string, script: string, seed: number, speed = 1): SourceDescription {
  return {
    schema: 'sthene.source/1',
    name,
    transport: { kind: 'virtual', script, seed, speed },
    channels: new Plates(0, 10_000, 0, virtualRate, []).channels.map(
      ({ rawRange = [-10_000, 10_000], ...channel }) => ({
        ...channel,
        rawRange,
      }),
    ),
    rate: virtualRate,
  };
}
