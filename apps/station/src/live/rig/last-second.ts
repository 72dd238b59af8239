import type { StreamChannel } from '@sthene/capture';

/** What one channel did over its last second, in its unit, its zero not taken off. */
export interface ChannelSecond {
  readonly mean: number;
  readonly sd: number;
  /** The part of the noise that comes from the mains, where it stands out: frequency, Hz, and amplitude. */
  readonly mains?: { readonly frequency: number; readonly amplitude: number };
  /** True when a raw value, or one of a signal it is made of, stood at an end of the range; absent where no range is described. */
  readonly saturated?: boolean;
}

/** Frequencies of public mains, Hz. */
const mainsFrequencies = [50, 60] as const;
/** The mains stand out when their amplitude is so many times that of the frequencies beside them. */
const standsOut = 3;
/**
 * And so many times what noise alone would give: of n samples of white noise the amplitude at one frequency is Rayleigh distributed
 * with the scale SD sqrt(2/n), and exceeds five times that once in 270 000 seconds.
 */
const byChance = 5;

/**
 * Mean, SD and mains component of one channel over a run of raw samples; missing ones (NaN) are left out of mean and SD, and with
 * any missing the mains are not judged. Undefined without a sample.
 *
 * Amplitude at f: 2/n |sum x exp(-2 pi i f t)|, the discrete Fourier transform at one frequency. Over one second whole numbers
 * of periods fit, so that neighbouring frequencies (f - 3 and f + 3 Hz) tell the noise floor.
 */
export function channelSecond(
  raw: Float64Array,
  { scale, offset, rawRange }: StreamChannel,
  rate: number,
): ChannelSecond | undefined {
  let n = 0;
  let mean = 0;
  let squares = 0;
  let atLimit = false;
  for (const value of raw) {
    if (Number.isNaN(value)) continue;
    if (rawRange !== undefined && (value <= rawRange[0] || value >= rawRange[1])) atLimit = true;
    n++;
    const d = value - mean;
    mean += d / n;
    squares += d * (value - mean);
  }
  if (n === 0) return undefined;
  const size = Math.abs(scale);
  const mains =
    n === raw.length && raw.length >= 0.99 * rate ? mainsOf(raw, mean, Math.sqrt(squares / n), rate) : undefined;
  return {
    mean: (mean - offset) * scale,
    sd: n < 2 ? 0 : size * Math.sqrt(squares / (n - 1)),
    ...(mains === undefined ? {} : { mains: { ...mains, amplitude: size * mains.amplitude } }),
    ...(rawRange === undefined ? {} : { saturated: atLimit }),
  };
}

/**
 * The last second of all channels of a stream. A made channel has no range of its own: it stands at its limit where a signal of it does.
 *
 * @param rawOf the last second of channel c; undefined where nothing came
 */
export function secondsOf(
  channels: readonly StreamChannel[],
  rawOf: (c: number) => Float64Array | undefined,
  rate: number,
): readonly (ChannelSecond | undefined)[] {
  const own = channels.map((channel, c) => {
    const raw = rawOf(c);
    return raw === undefined ? undefined : channelSecond(raw, channel, rate);
  });
  const ofName = new Map(channels.map(({ name }, c) => [name, own[c]?.saturated]));
  return own.map((second, c) => {
    const known = channels[c]?.madeOf?.flatMap(({ channel }) => ofName.get(channel) ?? []) ?? [];
    return second === undefined || known.length === 0 ? second : { ...second, saturated: known.includes(true) };
  });
}

function mainsOf(raw: Float64Array, mean: number, sd: number, rate: number): ChannelSecond['mains'] | undefined {
  let best: { frequency: number; amplitude: number } | undefined;
  const chance = byChance * sd * Math.sqrt(2 / raw.length);
  for (const frequency of mainsFrequencies) {
    if (frequency + 3 >= rate / 2) continue;
    const amplitude = amplitudeAt(raw, mean, frequency / rate);
    const floor = Math.max(
      amplitudeAt(raw, mean, (frequency - 3) / rate),
      amplitudeAt(raw, mean, (frequency + 3) / rate),
    );
    if (amplitude > chance && amplitude > standsOut * floor && amplitude > (best?.amplitude ?? 0))
      best = { frequency, amplitude };
  }
  return best;
}

/**
 * By the recurrence s[i] = x[i] + 2 cos(w) s[i-1] - s[i-2] (Goertzel 1958), which needs no sine for each sample.
 *
 * @param turns of the frequency in one sample
 */
function amplitudeAt(raw: Float64Array, mean: number, turns: number): number {
  const w = 2 * Math.PI * turns;
  const twice = 2 * Math.cos(w);
  let last = 0;
  let before = 0;
  for (let i = 0; i < raw.length; i++) {
    const now = (raw[i] as number) - mean + twice * last - before;
    before = last;
    last = now;
  }
  return (2 * Math.hypot(last - before * Math.cos(w), before * Math.sin(w))) / raw.length;
}
