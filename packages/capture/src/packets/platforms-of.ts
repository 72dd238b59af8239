import { conversionFactor, convertible, type ForcePlatform } from '@sthene/core';
import type { StreamChannel } from './packet.ts';

const axes = ['x', 'y', 'z', 'mx', 'my', 'mz'] as const;

/**
 * Plates of a stream that give three forces and three moments and say where their surface lies, as platforms of type 2 of the C3D
 * standard. They carry no vertical force of their own: that one is a channel.
 *
 * @param channels in the order of the recording
 * @param zeros what the empty plates showed, by name of the channel: vertical ones in N, others in their own unit
 */
export function platformsOfChannels(
  channels: readonly StreamChannel[],
  zeros: Readonly<Record<string, number>> = {},
): ForcePlatform[] {
  return channels.flatMap(({ plate, surface }) => {
    if (surface === undefined) return [];
    const list = axes.map((axis) => channels.findIndex((one) => one.plate === plate && one.axis === axis));
    if (list.includes(-1)) return [];
    const baselines = list.map((at) => {
      const channel = channels[at] as StreamChannel;
      const own = channel.axis === 'z' && convertible('N', channel.unit) ? conversionFactor('N', channel.unit) : 1;
      return own * (zeros[channel.name] ?? 0);
    });
    return [
      {
        ...{ name: plate, type: 2, channels: list, pressSign: 1 as const, lengthUnit: 'mm' },
        ...{ origin: surface.origin, baselines },
        ...(surface.corners === undefined ? {} : { corners: surface.corners }),
      },
    ];
  });
}
