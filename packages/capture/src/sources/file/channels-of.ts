import { proposeForces, type Recording, type Side } from '@sthene/core';
import type { StreamChannel } from '../../packets/packet.ts';
import type { ChannelDescription } from '../description.ts';

/** A channel of a stream and the channel of the recording that fills it. */
export interface FileChannel {
  readonly index: number;
  readonly channel: StreamChannel;
}

/**
 * The channels of a file as a stream: those described, by name, or all of them where none is described.
 *
 * A described scale and offset act on the physical value the file gives, which in turn is (raw - offset) * scale of its own; both
 * together are one straight line over the raw values. Without a description, side and force are those the file's names propose.
 *
 * @returns names that the file lacks, when it lacks any
 */
export function channelsOf(
  recording: Recording,
  described: readonly ChannelDescription[],
):
  | { readonly ok: true; readonly channels: readonly FileChannel[] }
  | { readonly ok: false; readonly missing: string[] } {
  if (described.length === 0) return { ok: true, channels: proposed(recording) };
  const missing: string[] = [];
  const channels: FileChannel[] = [];
  for (const want of described) {
    const index = recording.channels.findIndex(({ name }) => name === want.name);
    const file = recording.channels[index];
    if (file === undefined) {
      missing.push(want.name);
      continue;
    }
    const range = want.rawRange ?? file.rawRange;
    channels.push({
      index,
      channel: {
        name: want.name,
        plate: want.plate,
        side: want.side,
        axis: want.axis,
        unit: want.unit,
        scale: file.scale * want.scale,
        offset: file.offset + want.offset / file.scale,
        ...(range === undefined ? {} : { rawRange: range }),
      },
    });
  }
  return missing.length > 0 ? { ok: false, missing } : { ok: true, channels };
}

function proposed(recording: Recording): FileChannel[] {
  const sides = new Map<number, Side | 'total'>();
  for (const { from, part } of proposeForces(recording).selection?.inputs ?? []) {
    if (from.kind === 'channel') sides.set(from.index, part);
  }
  return recording.channels.map(({ name, unit, scale, offset, rawRange }, index) => {
    const part = sides.get(index);
    return {
      index,
      channel: {
        name,
        plate: name,
        side: part === undefined || part === 'total' ? 'none' : part,
        axis: part === undefined ? 'other' : 'z',
        unit: unit === '' && part !== undefined ? 'N' : unit,
        scale,
        offset,
        ...(rawRange === undefined ? {} : { rawRange }),
      },
    };
  });
}
