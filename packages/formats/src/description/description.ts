import type { Channel, ForcePlatform, Notice, RateOrigin, Recording, SampleSpan, SourceEvent } from '@sthene/core';
import { type Storage, storageOf } from './storage.ts';

/** Name and version of the description; a changed meaning gets a new number. */
export const descriptionFormat = 'sthene.recording/1';

/** A channel without its samples. */
export type ChannelDescription = Omit<Channel, 'raw'> & { readonly storage: Storage };

/** A platform without its force; `hasForce` says that the force is stored beside. */
export type PlatformDescription = Omit<ForcePlatform, 'verticalForce'> & { readonly hasForce: boolean };

/**
 * Everything of a recording but its samples, as plain data: what a file of samples needs beside it to be read alone.
 * JSON keeps every number exactly (shortest decimal that reads back to the same double).
 */
export interface RecordingDescription {
  readonly format: typeof descriptionFormat;
  /** Hz. */
  readonly sampleRate: number;
  readonly rateOrigin: RateOrigin;
  readonly measuredRate?: number;
  readonly sampleCount: number;
  readonly channels: readonly ChannelDescription[];
  readonly platforms: readonly PlatformDescription[];
  readonly gaps: readonly SampleSpan[];
  readonly events: readonly SourceEvent[];
  readonly recordedAt?: string;
  readonly facts: Readonly<Record<string, string>>;
  readonly notices: readonly Notice[];
}

/** Describes a recording; platforms' forces and channels' samples stay behind. */
export function describeRecording(recording: Recording): RecordingDescription {
  return {
    format: descriptionFormat,
    sampleRate: recording.sampleRate,
    rateOrigin: recording.rateOrigin,
    ...(recording.measuredRate === undefined ? {} : { measuredRate: recording.measuredRate }),
    sampleCount: recording.sampleCount,
    channels: recording.channels.map(({ raw, ...channel }) => ({ ...channel, storage: storageOf(raw) })),
    platforms: recording.platforms.map(({ verticalForce, ...platform }) => ({
      ...platform,
      hasForce: verticalForce !== undefined,
    })),
    gaps: recording.gaps.map(({ start, end }) => ({ start, end })),
    events: recording.events.map(({ label, time }) => ({ label, time })),
    ...(recording.recordedAt === undefined ? {} : { recordedAt: recording.recordedAt }),
    facts: recording.facts,
    notices: recording.notices.map(({ code, message }) => ({ code, message })),
  };
}
