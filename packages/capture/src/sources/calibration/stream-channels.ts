import type { StreamChannel } from '../../packets/packet.ts';
import type { SourceDescription } from '../description.ts';

/** Channels that calibrations make, in the order of their rows. A signal with the factor 0 has no share. */
export function madeChannels(calibration: SourceDescription['calibration'] = []): StreamChannel[] {
  return calibration.flatMap(({ signals, matrix, channels }) =>
    channels.map((channel, row): StreamChannel => {
      const factors = matrix[row] ?? [];
      const shares = signals.map((signal, column) => ({ channel: signal, factor: factors[column] ?? 0 }));
      return { ...channel, scale: 1, offset: 0, madeOf: shares.filter(({ factor }) => factor !== 0) };
    }),
  );
}

/** Every channel the stream of a description has: those that come, then those its calibration makes of them. */
export const streamChannelsOf = ({
  channels,
  calibration,
}: Pick<SourceDescription, 'channels' | 'calibration'>): StreamChannel[] => [
  ...channels.map((channel) => ({ ...channel })),
  ...madeChannels(calibration),
];
