import { RateMeter, type TimeLine } from './rate.ts';
import { SampleRing } from './sample-ring.ts';

/** One stream of a rig. */
export interface AlignedStream {
  readonly channels: number;
  readonly promisedRate: number;
}

/** How well a stream's own line of time fits: SD of the receive times about it, s. */
export interface Alignment {
  readonly line: TimeLine | undefined;
}

/** Rows on the common grid, in order; a row is whole or missing. */
export interface GridReader {
  /** `values[c * count + i]`, channels of all streams one after another. */
  samples(first: number, count: number, values: Float64Array): void;
  gap(first: number, count: number): void;
}

interface Track {
  readonly ring: SampleRing;
  readonly meter: RateMeter;
  /** Position of this stream's samples at two knots of the grid; linear between them. */
  from: number;
  to: number;
}

/** Seconds of samples kept, and how long a stream may lag behind before its samples count as missing. */
const keptSeconds = 8;
const patience = 1;

/**
 * Puts streams with clocks of their own on the grid of the fastest.
 *
 * Each stream has its fitted line of receive time over counts. A grid sample has the time of the fastest stream's line; the
 * others are interpolated linearly at their own position at that time. Positions move along straight lines between knots a second
 * apart, so that a better fit never makes a sample jump. Where any stream misses a sample the row is missing. Delays that are the
 * same in every packet of a stream cannot be seen from the receive times and stay; the scatter is reported.
 */
export class GridAligner {
  readonly #tracks: readonly Track[];
  readonly #fastest: number;
  readonly #rate: number;
  readonly #reader: GridReader;
  readonly #channels: number;
  /** Index of the fastest stream at grid sample 0; undefined until every stream has a line. */
  #origin: number | undefined;
  /** Next grid sample, and the next knot. */
  #next = 0;
  #knot = 0;
  #rows: Float64Array[] = [];
  /** Grid sample of the first row gathered. */
  #first = 0;

  constructor(streams: readonly AlignedStream[], reader: GridReader) {
    this.#rate = Math.max(...streams.map(({ promisedRate }) => promisedRate));
    this.#fastest = streams.findIndex(({ promisedRate }) => promisedRate === this.#rate);
    this.#channels = streams.reduce((sum, { channels }) => sum + channels, 0);
    this.#reader = reader;
    this.#tracks = streams.map(({ channels, promisedRate }) => ({
      ring: new SampleRing(channels, Math.ceil(keptSeconds * promisedRate)),
      meter: new RateMeter(promisedRate),
      from: 0,
      to: 0,
    }));
  }

  get fastest(): number {
    return this.#fastest;
  }

  /** Grid sample at which a sample of a stream was taken, to the nearest; 0 before the grid begins. */
  gridOf(stream: number, index: number): number {
    const own = this.#tracks[stream]?.meter.line();
    const fast = this.#tracks[this.#fastest]?.meter.line();
    if (this.#origin === undefined || own === undefined || fast === undefined) return 0;
    const position = stream === this.#fastest ? index : positionAt(fast, timeOf(own, index));
    return Math.max(0, Math.round(position) - this.#origin);
  }

  alignments(): Alignment[] {
    return this.#tracks.map(({ meter }) => ({ line: meter.line() }));
  }

  /** Samples of a stream, or missing ones; `seconds` is when the last was received. */
  append(stream: number, first: number, count: number, values: Float64Array | undefined, seconds: number): void {
    const track = this.#tracks[stream] as Track;
    track.ring.append(first, count, values);
    if (values !== undefined) track.meter.add(first + count, seconds);
    this.#advance();
  }

  /** Hands on what waited for a stream that will not come. */
  end(): void {
    this.#flush();
  }

  #begin(): boolean {
    const lines = this.#tracks.map(({ meter }) => meter.line());
    const line = lines[this.#fastest];
    if (line === undefined || lines.some((one) => one === undefined)) return false;
    // The first sample of the fastest stream at which all others have begun.
    let origin = (this.#tracks[this.#fastest] as Track).ring.start;
    this.#tracks.forEach(({ ring }, k) => {
      const began = timeOf(lines[k] as TimeLine, ring.start);
      origin = Math.max(origin, Math.ceil(positionAt(line, began) - 1e-9));
    });
    this.#origin = origin;
    for (const [k, track] of this.#tracks.entries()) track.to = this.#positionOf(k, origin);
    return true;
  }

  /** Position of a stream when the fastest is at an index, by the newest lines. */
  #positionOf(stream: number, index: number): number {
    if (stream === this.#fastest) return index;
    const fast = (this.#tracks[this.#fastest] as Track).meter.line();
    const own = (this.#tracks[stream] as Track).meter.line();
    if (fast === undefined || own === undefined) return Number.NaN;
    return positionAt(own, timeOf(fast, index));
  }

  #advance(): void {
    if (this.#origin === undefined && !this.#begin()) return;
    const origin = this.#origin as number;
    const { ring } = this.#tracks[this.#fastest] as Track;
    const step = Math.round(this.#rate);
    while (origin + this.#next < ring.end) {
      if (this.#next === this.#knot) {
        this.#knot += step;
        for (const [k, track] of this.#tracks.entries()) {
          track.from = track.to;
          track.to = this.#positionOf(k, origin + this.#knot);
        }
      }
      const share = 1 - (this.#knot - this.#next) / step;
      const waiting = ring.end - (origin + this.#next) < patience * this.#rate;
      if (
        waiting &&
        !this.#tracks.every((track) => track.ring.end > Math.floor(positionIn(track, share)) + 1 || track.ring === ring)
      )
        break;
      this.#row(share);
      this.#next++;
    }
    this.#flush();
  }

  #row(share: number): void {
    const row = new Float64Array(this.#channels);
    let at = 0;
    let whole = true;
    for (const [k, track] of this.#tracks.entries()) {
      const position = k === this.#fastest ? (this.#origin as number) + this.#next : positionIn(track, share);
      const low = Math.floor(position);
      const part = position - low;
      for (let c = 0; c < track.ring.channels; c++, at++) {
        const before = track.ring.at(low, c);
        row[at] = part === 0 ? before : before + part * (track.ring.at(low + 1, c) - before);
        if (Number.isNaN(row[at])) whole = false;
      }
    }
    if (whole) this.#rows.push(row);
    else {
      this.#flush();
      this.#first = this.#next + 1;
      this.#reader.gap(this.#next, 1);
    }
  }

  #flush(): void {
    const count = this.#rows.length;
    if (count === 0) return;
    const values = new Float64Array(count * this.#channels);
    this.#rows.forEach((row, i) => {
      for (let c = 0; c < this.#channels; c++) values[c * count + i] = row[c] as number;
    });
    const first = this.#first;
    this.#first = first + count;
    this.#rows = [];
    this.#reader.samples(first, count, values);
  }
}

/** Time at which sample `index` is complete, s. */
const timeOf = (line: TimeLine, index: number): number => line.origin + (index + 1) / line.rate;
const positionAt = (line: TimeLine, seconds: number): number => (seconds - line.origin) * line.rate - 1;
const positionIn = ({ from, to }: Track, share: number): number => from + share * (to - from);
