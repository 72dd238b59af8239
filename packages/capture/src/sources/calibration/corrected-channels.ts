import { conversionFactor, convertible, correctedScale, type PlateCorrection } from '@sthene/core';
import type { StreamChannel } from '../../packets/packet.ts';

/** A correction of plates with the id it was adopted under. */
export interface AdoptedCorrection {
  readonly id: string;
  readonly plates: readonly PlateCorrection[];
}

/** Whether a channel is a force that a correction of its plate is about. */
export const isPlateForce = ({ axis, unit }: StreamChannel): boolean =>
  (axis === 'z' || axis === 'force') && convertible(unit, 'N');

/**
 * Channels with a correction in their scale and offset in place of any they had. Only vertical forces take part; the offset of a plate
 * with several cells is shared among them. Raw values mean what they meant.
 */
export function correctedChannels(
  channels: readonly StreamChannel[],
  { id, plates }: AdoptedCorrection,
): StreamChannel[] {
  return channels.map((channel) => {
    const plain = uncorrected(channel);
    const correction = plates.find(({ plate }) => plate === channel.plate);
    if (correction === undefined || !isPlateForce(channel)) return plain;
    const cells = channels.filter((one) => one.plate === channel.plate && isPlateForce(one)).length;
    const offset = correction.offset / cells / conversionFactor(channel.unit, 'N');
    const own = { plate: correction.plate, gain: correction.gain, offset };
    return { ...plain, ...correctedScale(plain, own), corrected: { id, gain: correction.gain, offset } };
  });
}

/** The channel as its source described it. */
export function uncorrected({ corrected, ...channel }: StreamChannel): StreamChannel {
  if (corrected === undefined) return channel;
  const scale = channel.scale * corrected.gain;
  return { ...channel, scale, offset: channel.offset - corrected.offset / scale };
}
