import type { HeaderPacket } from '@sthene/capture';
import { conversionFactor, convertible, type Side } from '@sthene/core';

/** How one channel of a stream becomes force: raw * gain - shift, in the unit of the test. */
interface Part {
  readonly channel: number;
  readonly name: string;
  readonly side: Side;
  readonly gain: number;
  readonly shift: number;
}

/** Vertical force channels of a stream with their zeros, for what screens show; the analysis does its own. */
export interface LiveForces {
  readonly parts: readonly Part[];
  readonly hasLeft: boolean;
  readonly hasRight: boolean;
}

/** @param zeros zero of each channel by name, in `unit` */
export function liveForces(header: HeaderPacket, zeros: Readonly<Record<string, number>>, unit = 'N'): LiveForces {
  const parts = header.channels.flatMap(({ name, axis, side, scale, offset, unit: own }, channel): Part[] => {
    if ((axis !== 'z' && axis !== 'force') || !convertible(own, unit)) return [];
    const gain = scale * conversionFactor(own, unit);
    return [{ channel, name, side, gain, shift: offset * gain + (zeros[name] ?? 0) }];
  });
  return {
    parts,
    hasLeft: parts.some(({ side }) => side === 'left'),
    hasRight: parts.some(({ side }) => side === 'right'),
  };
}
