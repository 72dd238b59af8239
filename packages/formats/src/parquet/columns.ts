import type { Recording } from '@sthene/core';
import { type Storage, storageOf } from '../description/index.ts';

/** Key of the description in the file's key-value metadata. */
export const descriptionKey = 'sthene.recording';

/** A column of a recording's file, in order: its channels, then the forces of its platforms. */
export interface RecordingColumn {
  readonly name: string;
  readonly storage: Storage;
}

/** Physical type of each storage type; `converted` tells other readers the width and sign. */
export const physicalTypes: Readonly<
  Record<
    Storage,
    { readonly type: 'DOUBLE' | 'FLOAT' | 'INT32'; readonly converted?: 'INT_8' | 'INT_16' | 'UINT_8' | 'UINT_16' }
  >
> = {
  float64: { type: 'DOUBLE' },
  float32: { type: 'FLOAT' },
  int32: { type: 'INT32' },
  int16: { type: 'INT32', converted: 'INT_16' },
  uint16: { type: 'INT32', converted: 'UINT_16' },
  int8: { type: 'INT32', converted: 'INT_8' },
  uint8: { type: 'INT32', converted: 'UINT_8' },
  // A double holds every 32-bit count, and every reader understands it.
  uint32: { type: 'DOUBLE' },
};

/** Names of the columns: channel names as they are, forces as `<plate> vertical force`, made unique among them. */
export function columnsOf(recording: Recording): RecordingColumn[] {
  const columns: RecordingColumn[] = recording.channels.map(({ name, raw }) => ({ name, storage: storageOf(raw) }));
  const taken = new Set(columns.map((column) => column.name));
  for (const platform of recording.platforms) {
    if (platform.verticalForce === undefined) continue;
    const base = `${platform.name} vertical force`;
    let name = base;
    for (let n = 2; taken.has(name); n++) name = `${base} (${n})`;
    taken.add(name);
    columns.push({ name, storage: 'float64' });
  }
  return columns;
}
