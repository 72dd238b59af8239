import { conversionFactor, convertible, type Side } from '@sthene/core';
import type { HeaderPacket, StreamChannel } from '../../packets/packet.ts';

/** A channel that enters the analysis: (raw - offset) * scale * factor is its force before zero. */
export interface ForceChannel {
  /** Position in the packets. */
  readonly index: number;
  readonly channel: StreamChannel;
  /** From the channel's unit to the unit of the test. */
  readonly factor: number;
}

/** A plate as a person sees it: one or several force channels. */
export interface Plate {
  readonly name: string;
  readonly side: Side;
  /** Positions in `channels` of the layout. */
  readonly channels: readonly number[];
}

/** Which channels carry force, and which plates they make. */
export interface RigLayout {
  readonly rate: number;
  readonly channelCount: number;
  readonly channels: readonly ForceChannel[];
  readonly plates: readonly Plate[];
  /**
   * What is kept beside the forces: signals that force channels are made of, whose limits are the limits of the force, and the other five
   * axes of a plate with a surface.
   */
  readonly signals: readonly Pick<ForceChannel, 'index' | 'channel'>[];
  /** Names of force channels whose unit cannot be converted; they are left out. */
  readonly unusable: readonly string[];
}

/** Reads the layout from a header. Only vertical channels and load cells enter. */
export function layoutOf(header: HeaderPacket, unit: string): RigLayout {
  const channels: ForceChannel[] = [];
  const unusable: string[] = [];
  header.channels.forEach((channel, index) => {
    if (channel.axis !== 'z' && channel.axis !== 'force') return;
    if (convertible(channel.unit, unit)) {
      channels.push({ index, channel, factor: conversionFactor(channel.unit, unit) });
    } else unusable.push(channel.name);
  });
  const plates = new Map<string, { name: string; side: Side; channels: number[] }>();
  channels.forEach(({ channel }, at) => {
    const plate = plates.get(channel.plate) ?? { name: channel.plate, side: channel.side, channels: [] };
    plate.channels.push(at);
    plates.set(channel.plate, plate);
  });
  const shares = new Set(channels.flatMap(({ channel }) => channel.madeOf?.map((share) => share.channel) ?? []));
  const placed = new Set(channels.flatMap(({ channel }) => (channel.surface === undefined ? [] : [channel.plate])));
  const signals = header.channels.flatMap((channel, index) =>
    shares.has(channel.name) || (placed.has(channel.plate) && isBeside(channel)) ? [{ index, channel }] : [],
  );
  return {
    rate: header.promisedRate,
    channelCount: header.channels.length,
    channels,
    plates: [...plates.values()],
    signals,
    unusable,
  };
}

/** A shear force or a moment. */
export const isBeside = ({ axis }: StreamChannel): boolean => ['x', 'y', 'mx', 'my', 'mz'].includes(axis);

/** True when samples of both headers mean the same. */
export const sameLayout = (a: HeaderPacket, b: HeaderPacket): boolean =>
  a.promisedRate === b.promisedRate && JSON.stringify(a.channels) === JSON.stringify(b.channels);
