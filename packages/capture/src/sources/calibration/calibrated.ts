import { type WeightedTerm, weightedSum } from '@sthene/core';
import type { Packet, SamplesPacket, StreamChannel } from '../../packets/packet.ts';
import type { SourceDescription } from '../description.ts';
import { madeChannels } from './stream-channels.ts';

/** Where a share of a made channel lies in the packets that come. */
interface Place {
  readonly index: number;
  readonly scale: number;
  readonly offset: number;
  readonly factor: number;
}

/**
 * Hands the packets of one stream on with the channels its calibration makes behind those that came: what came is kept as it is, so
 * that everything behind - journal, recordings, analysis - has both. A made sample is the sum of factor * (raw - offset) * scale over
 * its signals; where that is no finite number it is missing (NaN).
 *
 * Throws an `Error` for a header without a signal of the calibration; the door for descriptions lets none of these in.
 */
export function calibrated(
  calibration: SourceDescription['calibration'],
  emit: (packet: Packet) => void,
): (packet: Packet) => void {
  if (calibration === undefined) return emit;
  let places: readonly (readonly Place[])[] = [];
  return (packet) => {
    if (packet.kind === 'header') {
      const made = madeChannels(calibration, packet.channels);
      places = made.map(({ madeOf = [] }) => madeOf.map((share) => placeOf(packet.channels, share)));
      emit({ ...packet, channels: [...packet.channels, ...made] });
    } else emit(packet.kind === 'samples' ? withMade(packet, places) : packet);
  };
}

function placeOf(
  channels: readonly StreamChannel[],
  { channel: name, factor }: { readonly channel: string; readonly factor: number },
): Place {
  const index = channels.findIndex((channel) => channel.name === name);
  const channel = channels[index];
  if (channel === undefined) throw new Error(`The calibration takes "${name}", which does not come.`);
  return { index, scale: channel.scale, offset: channel.offset, factor };
}

function withMade(packet: SamplesPacket, places: readonly (readonly Place[])[]): SamplesPacket {
  const { count, values: came } = packet;
  const values = new Float64Array(came.length + places.length * count);
  values.set(came);
  places.forEach((shares, row) => {
    const terms = shares.map(
      ({ index, scale, offset, factor }): WeightedTerm => ({
        channel: { raw: came.subarray(index * count, (index + 1) * count), scale, offset },
        factor,
      }),
    );
    const sum = weightedSum(terms);
    for (let i = 0; i < count; i++) if (!Number.isFinite(sum[i])) sum[i] = Number.NaN;
    values.set(sum, came.length + row * count);
  });
  return { ...packet, values };
}
