import type { StreamChannel } from '../../packets/packet.ts';
import type { SourceDescription } from '../description.ts';

/**
 * Channels that calibrations make, in the order of their rows. A signal with the factor 0 has no share. The range of a made channel is
 * the widest that its matrix gives of the ranges of its signals; it is unknown where that of one of them is.
 *
 * @param channels those that come, signals among them
 */
export function madeChannels(
  calibration: SourceDescription['calibration'] = [],
  channels: readonly StreamChannel[],
): StreamChannel[] {
  return calibration.flatMap(({ signals, matrix, channels: made }) =>
    made.map((channel, row): StreamChannel => {
      const factors = matrix[row] ?? [];
      const madeOf = signals
        .map((signal, column) => ({ channel: signal, factor: factors[column] ?? 0 }))
        .filter(({ factor }) => factor !== 0);
      const range = rangeOf(madeOf, channels);
      return { ...channel, scale: 1, offset: 0, ...(range === undefined ? {} : { rawRange: range }), madeOf };
    }),
  );
}

function rangeOf(
  shares: NonNullable<StreamChannel['madeOf']>,
  channels: readonly StreamChannel[],
): readonly [low: number, high: number] | undefined {
  let low = 0;
  let high = 0;
  for (const { channel: name, factor } of shares) {
    const signal = channels.find((one) => one.name === name);
    if (signal?.rawRange === undefined) return undefined;
    const ends = signal.rawRange.map((raw) => factor * ((raw - signal.offset) * signal.scale));
    low += Math.min(...ends);
    high += Math.max(...ends);
  }
  return [low, high];
}

/** Every channel the stream of a description has: those that come, then those its calibration makes of them. */
export const streamChannelsOf = ({
  channels,
  calibration,
}: Pick<SourceDescription, 'channels' | 'calibration'>): StreamChannel[] => [
  ...channels,
  ...madeChannels(calibration, channels),
];
