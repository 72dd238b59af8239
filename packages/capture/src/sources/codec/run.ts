/** Consecutive samples of one line or frame, as received. */
export interface Run {
  /** Counter of the line or frame, as received. */
  readonly counter?: number;
  /** Device time of its first sample, as received, in the unit of its field. */
  readonly time?: number;
  readonly count: number;
  /** `values[i * channels + c]` is sample i of channel c, channels in the order of the description. */
  readonly values: Float64Array;
}

/** Bytes that were no sample. */
export interface Damage {
  readonly fault: 'checksum' | 'unreadable';
  /** Lines or frames that fell out. */
  readonly count: number;
  /** Samples that may be missing with them, as far as the bytes tell; a counter knows better. */
  readonly samples: number;
}

export interface CodecReader {
  run(run: Run): void;
  damage(damage: Damage): void;
}

/** Turns bytes, in pieces of any size, into runs of samples. Holds no clock and does no I/O. */
export interface Codec {
  /** The bytes may be reused by the caller afterwards. */
  feed(bytes: Uint8Array): void;
  /** The bytes end here (a datagram, a lost link): what is whole is read, the rest is damage. */
  end(): void;
}
