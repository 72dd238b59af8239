import type { HeaderPacket, SamplesPacket, StreamSample } from '@sthene/capture';
import { type LiveForces, liveForces } from '../rig/forces-now.ts';

/** Stamps that lie further apart than this from where the last ones lead are taken anew, s. */
const leap = 1;
/** Stamps follow a new estimate of the time by this share of the time that passes: samples are taken evenly, and look so. */
const following = 0.005;
/**
 * A rate further from the promised one, as a share, is that of plates that are played: they keep to no clock. So wide because arrivals on a busy
 * machine are late by a good part of the two seconds over which the rate is first taken.
 */
const playedRate = 0.5;

/** Forces of a rig as others get them: total, left and right in newtons after the zero, stamped by the station's clock. */
export class ForceRows {
  readonly #header: HeaderPacket;
  #forces: LiveForces;
  /** Where the last packet ended, when that was, and the stamp it began with. */
  #next: { readonly index: number; readonly time: number; readonly began: number } | undefined;

  constructor(header: HeaderPacket, zeros: Readonly<Record<string, number>>) {
    this.#header = header;
    this.#forces = liveForces(header, zeros);
  }

  get labels(): string[] {
    const { hasLeft, hasRight } = this.#forces;
    return ['total', ...(hasLeft ? ['left'] : []), ...(hasRight ? ['right'] : [])];
  }

  zero(zeros: Readonly<Record<string, number>>): void {
    this.#forces = liveForces(this.#header, zeros);
  }

  /**
   * @param at when the first sample was taken, by the station's clock, s, and the rate samples come at just now, Hz
   * @param shown false: the forces are not to be told, and each value is no number
   */
  rows(
    { first, count, values }: SamplesPacket,
    at: { readonly time: number; readonly rate: number },
    shown: boolean,
  ): StreamSample[] {
    const { promisedRate: rate } = this.#header;
    const { parts, hasLeft, hasRight } = this.#forces;
    const from = this.#stamp(first, at);
    this.#next = { index: first + count, time: from + count / rate, began: from };
    return Array.from({ length: count }, (_, i) => {
      let [total, left, right] = [0, 0, 0];
      for (const { channel, side, gain, shift } of parts) {
        const force = (values[channel * count + i] as number) * gain - shift;
        total += force;
        if (side === 'left') left += force;
        else if (side === 'right') right += force;
      }
      const row = [total, ...(hasLeft ? [left] : []), ...(hasRight ? [right] : [])];
      const told = shown ? row : row.map(() => Number.NaN);
      return i === 0 ? { time: from, values: told } : { values: told };
    });
  }

  /** Packets come unevenly, samples are taken evenly: a stamp follows the last one, and only slowly what is said of the time now. */
  #stamp(first: number, { time, rate }: { readonly time: number; readonly rate: number }): number {
    const next = this.#next;
    if (next === undefined) return time;
    const { promisedRate } = this.#header;
    if (Math.abs(rate - promisedRate) > playedRate * promisedRate) return Math.max(next.began, time);
    const expected = next.time + (first - next.index) / promisedRate;
    const late = time - expected;
    if (Math.abs(late) > leap) return Math.max(next.began, time);
    const most = following * (expected - next.began);
    return expected + Math.max(-most, Math.min(most, late));
  }
}
