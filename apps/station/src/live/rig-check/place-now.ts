import { platformsOfChannels, type StreamChannel } from '@sthene/capture';
import { conversionFactor, convertible, pressureOf, type Recording } from '@sthene/core';
import type { RigRuntime } from '../rig/rig-runtime.ts';

/** Seconds the place of a load is averaged over. */
const averaged = 1;

/**
 * Where a load stands on each plate that gives three forces and three moments, mm from the middle of its surface, in its own axes; plates
 * that do not tell or carry under 20 N are left out.
 *
 * @param shown mean of each channel, as it came
 * @param zeros what each channel showed of the empty plate, by name: vertical forces in N, others in their own unit
 */
export function placesOnPlates(
  channels: readonly StreamChannel[],
  shown: readonly number[],
  zeros: Readonly<Record<string, number>>,
): ReadonlyMap<string, { readonly x: number; readonly y: number }> {
  const recording: Recording = {
    ...{ sampleRate: 1, rateOrigin: 'given', sampleCount: 1, gaps: [], events: [], facts: {}, notices: [] },
    channels: channels.map(({ name, unit, scale, offset }, c) => ({
      ...{ name, unit, scale, offset, raw: Float64Array.of(shown[c] as number) },
    })),
    platforms: platformsOfChannels(channels, zeros),
  };
  return new Map(
    pressureOf(recording).plates.flatMap(({ name, x, y }) => {
      const place = { x: x[0] as number, y: y[0] as number };
      return Number.isFinite(place.x) && Number.isFinite(place.y) ? [[name, place] as const] : [];
    }),
  );
}

/** Mean of each channel over the last second, as it came; NaN where all are missing. */
export function channelsNow(runtime: RigRuntime): { channels: readonly StreamChannel[]; shown: number[] } {
  const { recent, rate } = runtime.stream;
  if (recent === undefined) return { channels: [], shown: [] };
  const start = Math.max(recent.oldest, recent.next - Math.round(averaged * rate));
  const shown = recent.header.channels.map((_, c) => {
    const values = recent.copy(c, start, recent.next).filter((value) => !Number.isNaN(value));
    return values.reduce((sum, value) => sum + value, 0) / values.length;
  });
  return { channels: recent.header.channels, shown };
}

/** What each channel shows now, as a zero by name. */
export function zerosNow(runtime: RigRuntime): Record<string, number> {
  const { channels, shown } = channelsNow(runtime);
  return Object.fromEntries(
    channels.flatMap(({ name, scale, offset, unit, axis }, c) => {
      const value = ((shown[c] as number) - offset) * scale;
      // A vertical zero is told in newtons, as a test tells it.
      const newtons = axis === 'z' && convertible(unit, 'N') ? conversionFactor(unit, 'N') * value : value;
      return Number.isFinite(newtons) ? [[name, newtons] as const] : [];
    }),
  );
}
