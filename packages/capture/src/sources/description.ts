import type { Side } from '@sthene/core';
import type { PlateSurface, StreamChannel } from '../packets/packet.ts';

/** A source described by data, not code: kept as a shareable JSON file and validated at the door. */
export interface SourceDescription {
  readonly schema: 'sthene.source/1';
  readonly name: string;
  readonly transport: Transport;
  /** How bytes become rows; absent for folder, replay and virtual sources. */
  readonly layout?: LineLayout | FrameLayout;
  readonly channels: readonly ChannelDescription[];
  /** Plates whose forces are a matrix times several signals; the channels it makes stand behind those that came. */
  readonly calibration?: readonly CalibrationDescription[];
  /** Promised rate, Hz. */
  readonly rate: number;
  readonly notes?: string;
}

export type Transport =
  | {
      readonly kind: 'serial';
      readonly path: string;
      readonly baudRate: number;
      readonly dataBits?: 7 | 8;
      readonly parity?: 'none' | 'even' | 'odd';
      readonly stopBits?: 1 | 2;
      readonly serialNumber?: string;
      readonly startBytes?: string;
    }
  | {
      readonly kind: 'tcp';
      readonly mode: 'connect' | 'listen';
      readonly host: string;
      readonly port: number;
      readonly startBytes?: string;
    }
  | { readonly kind: 'udp'; readonly host: string; readonly port: number }
  | StreamTransport
  | { readonly kind: 'folder'; readonly path: string; readonly pattern?: string }
  | { readonly kind: 'replay'; readonly file: string; readonly speed: number; readonly repeat?: boolean }
  | { readonly kind: 'virtual'; readonly script: string; readonly seed: number; readonly speed?: number };

/** A stream of the open lab streaming layer, by what is known of it: name, type, source id, or the machine that offers it. */
export interface StreamTransport {
  readonly kind: 'stream';
  readonly name?: string;
  readonly type?: string;
  /** By it the sender is known again after it began anew. */
  readonly sourceId?: string;
  /** Asked alone; absent: the own network and this machine are asked. */
  readonly host?: string;
  /** Its port for queries, where it is not a usual one. */
  readonly port?: number;
  /** Names of the stream's channels as they were when it was described, in their order: a stream that names them otherwise is refused. */
  readonly labels?: readonly string[];
}

/** What one field of a line or frame is. */
export type FieldRole =
  | {
      readonly role: 'counter' /** The count after which it starts again at 0; absent: never. */;
      readonly wrapsAt?: number;
      readonly step?: number;
    }
  | { readonly role: 'time'; readonly unit: 's' | 'ms' | 'us'; readonly wrapsAt?: number }
  | { readonly role: 'channel'; readonly channel: string }
  | { readonly role: 'ignore' };

/** Text lines, one sample each. */
export interface LineLayout {
  readonly kind: 'lines';
  /** One character; ' ' means runs of blanks. */
  readonly delimiter: string;
  readonly decimal?: '.' | ',';
  /** Lines that begin with this are no samples. */
  readonly comment?: string;
  readonly fields: readonly FieldRole[];
}

export type FieldType = 'u8' | 'i8' | 'u16' | 'i16' | 'i24' | 'u24' | 'i32' | 'u32' | 'f32' | 'f64';

/** Binary frames of fixed length: sync bytes, fields before the samples, `samples` times the sample fields, checksum. */
export interface FrameLayout {
  readonly kind: 'frames';
  /** Hexadecimal, at least one byte. */
  readonly sync: string;
  readonly endian: 'little' | 'big';
  /** Once a frame. */
  readonly head: readonly (FieldRole & { readonly type: FieldType })[];
  /** Repeated `samples` times. */
  readonly sample: readonly (FieldRole & { readonly type: FieldType })[];
  readonly samples: number;
  readonly checksum: Checksum;
}

export type Checksum =
  | { readonly kind: 'none' }
  /** Over everything after the sync bytes (or with them), before the checksum itself. */
  | { readonly kind: 'sum8' | 'xor8'; readonly withSync?: boolean }
  | {
      readonly kind: 'crc16';
      readonly polynomial: number;
      readonly initial: number;
      readonly reflected: boolean;
      readonly finalXor: number;
      readonly endian?: 'little' | 'big';
      readonly withSync?: boolean;
    }
  | { readonly kind: 'crc32'; readonly endian?: 'little' | 'big'; readonly withSync?: boolean };

/** A channel by the name its fields use, and how its counts become newtons. */
export interface ChannelDescription {
  readonly name: string;
  readonly plate: string;
  readonly side: Side;
  readonly axis: StreamChannel['axis'];
  readonly unit: string;
  readonly scale: number;
  readonly offset: number;
  readonly rawRange?: readonly [number, number];
  readonly surface?: PlateSurface;
}

/** A calibration matrix: made channels = matrix * signals, each signal by its own offset and scale. */
export interface CalibrationDescription {
  /** Names of described channels, one a column. They have the axis `other`, so that they are no force beside what is made of them. */
  readonly signals: readonly string[];
  /** One row for each channel made, one column for each signal: units of the channel per unit of the signal. */
  readonly matrix: readonly (readonly number[])[];
  readonly channels: readonly MadeChannelDescription[];
}

/** A channel that a calibration makes; its values are in its unit already. */
export type MadeChannelDescription = Pick<ChannelDescription, 'name' | 'plate' | 'side' | 'axis' | 'unit' | 'surface'>;
