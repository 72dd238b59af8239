import type { MonotonicNanoseconds, SampleIndex, Side, UtcInstant } from '@sthene/core';

/** One channel as a source delivers it: which plate, side and axis it is, and how its counts become a physical value. */
export interface StreamChannel {
  readonly name: string;
  /** Channels of one plate share its name; a load cell is a plate of its own. */
  readonly plate: string;
  readonly side: Side;
  /** `z` is vertical; only vertical channels (or `force` of a load cell) enter the analysis. */
  readonly axis: 'x' | 'y' | 'z' | 'mx' | 'my' | 'mz' | 'force' | 'other';
  /** UCUM code of the physical value. */
  readonly unit: string;
  /** physical = (raw - offset) * scale, positive when pressed. */
  readonly scale: number;
  readonly offset: number;
  /** Smallest and largest raw value the device can give. */
  readonly rawRange?: readonly [low: number, high: number];
  /**
   * Of a channel that a calibration matrix made: its value is the sum of these shares. Wherever one of these channels stands at its
   * limit, so does this one.
   */
  readonly madeOf?: readonly ChannelShare[];
  /** Of the vertical channel of a plate that gives three forces and three moments: where its surface lies. */
  readonly surface?: PlateSurface;
  /** What a check of the rig put right: scale and offset have it in them already. */
  readonly corrected?: ChannelCorrection;
}

/** Where the surface of a plate lies that gives three forces and three moments, all lengths in mm. */
export interface PlateSurface {
  /** From the origin of the measurement to the middle of the surface, in the plate's axes. */
  readonly origin: Place;
  /** Corners of the surface on the floor: quadrants +x+y, -x+y, -x-y, +x-y of the plate. */
  readonly corners?: readonly [Place, Place, Place, Place];
}

export type Place = readonly [x: number, y: number, z: number];

/** A correction in a channel: true value = (shown - offset) / gain, both in the channel's unit. */
export interface ChannelCorrection {
  /** Id of the adopted correction. */
  readonly id: string;
  readonly gain: number;
  readonly offset: number;
}

/** What one signal adds to a made channel: `factor` times its physical value. */
export interface ChannelShare {
  /** Name of a channel of the same stream. */
  readonly channel: string;
  readonly factor: number;
}

/**
 * What travels from a source to the journal and the live engine. Sample indices count grid samples of this stream from its
 * first one, lost samples included, so that an index is a time. Raw values are kept as received.
 */
export type Packet =
  | HeaderPacket
  | SamplesPacket
  | GapPacket
  | FaultPacket
  | StatusPacket
  | MarkPacket
  | ClockPacket
  | EndPacket;

/** Opens a stream. */
export interface HeaderPacket {
  readonly kind: 'header';
  /** Id of the source; the same after a reconnection of the same device. */
  readonly source: string;
  /** Serial number or address, where the device tells one. */
  readonly device?: string;
  readonly promisedRate: number;
  readonly channels: readonly StreamChannel[];
  readonly at: MonotonicNanoseconds;
  readonly wallClock: UtcInstant;
}

/** A run of consecutive samples. `values[c * count + i]` is sample i of channel c. */
export interface SamplesPacket {
  readonly kind: 'samples';
  readonly first: SampleIndex;
  readonly count: number;
  readonly values: Float64Array;
  /** Time of the first sample by the device's own clock, s, where it has one. */
  readonly deviceTime?: number;
  /** When the last byte of the run was received. */
  readonly at: MonotonicNanoseconds;
}

/** Samples that never came: [first, first + count). Never filled silently. */
export interface GapPacket {
  readonly kind: 'gap';
  readonly first: SampleIndex;
  readonly count: number;
  readonly cause: 'lost' | 'stall' | 'disconnected' | 'suspended' | 'damaged';
  readonly at: MonotonicNanoseconds;
}

/** A fault that took or gave no sample on the grid, counted: packets that came twice, too late, or out of order but in time; bad checksums. */
export interface FaultPacket {
  readonly kind: 'fault';
  readonly fault: 'doubled' | 'late' | 'swapped' | 'checksum' | 'unreadable';
  readonly count: number;
  readonly near: SampleIndex;
  readonly at: MonotonicNanoseconds;
}

/** The source's state as a person should know it. */
export interface StatusPacket {
  readonly kind: 'status';
  readonly state: 'connecting' | 'connected' | 'quiet' | 'lost' | 'returned' | 'wrong-device' | 'wrong-rate' | 'ended';
  readonly words: string;
  readonly at: MonotonicNanoseconds;
}

/** An instant of the test: a cue that sounded, a phase that began, a decision. Synced at once. */
export interface MarkPacket {
  readonly kind: 'mark';
  readonly sample: SampleIndex;
  readonly label: string;
  /** Small JSON value; no personal data but ids. */
  readonly data?: unknown;
  readonly at: MonotonicNanoseconds;
}

/** Ties the stream's clock to the station's, now and then. */
export interface ClockPacket {
  readonly kind: 'clock';
  readonly sample: SampleIndex;
  readonly at: MonotonicNanoseconds;
  readonly wallClock: UtcInstant;
  /** Rate measured so far, Hz, and how far it can be trusted. */
  readonly measuredRate?: number;
  readonly rateUncertainty?: number;
  /** Seconds by which the wall clock was moved just before, when it was; no sample moves with it. */
  readonly wallStep?: number;
  /**
   * Of a device that answers time probes: what has to be added to its device times to have the station's monotonic clock, s, and the
   * round trip of the probe that said so, s: the offset is wrong by half of it at most.
   */
  readonly deviceClock?: { readonly offset: number; readonly roundTrip: number };
}

/** Closes a stream with its counts. */
export interface EndPacket {
  readonly kind: 'end';
  readonly samples: number;
  readonly gaps: number;
  readonly missing: number;
  readonly at: MonotonicNanoseconds;
}
