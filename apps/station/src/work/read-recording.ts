import type { Recording } from '@sthene/core';
import type { NamedRecording } from '@sthene/formats';
import type { OpenLab } from '../labs/open-lab.ts';
import { problems } from '../server/problem-error.ts';
import { type Reading, recordingNamed, recordingsFrom } from './recordings-from.ts';

export type { Reading };

/** Reads a stored recording again from its original bytes. */
export async function readRecording(lab: OpenLab, sha256: string, label: string, reading: Reading): Promise<Recording> {
  return recordingNamed(await recordingsIn(lab, sha256, reading), label);
}

/** As `readRecording`, for going through an archive: the file read last is kept, because the next trial often lies in it too. */
export function readingOneAfterTheOther(): typeof readRecording {
  let key = '';
  let recordings: readonly NamedRecording[] = [];
  return async (lab, sha256, label, reading) => {
    const asked = `${lab.id} ${sha256} ${JSON.stringify(reading)}`;
    if (asked !== key) {
      recordings = await recordingsIn(lab, sha256, reading);
      key = asked;
    }
    return recordingNamed(recordings, label);
  };
}

async function recordingsIn(lab: OpenLab, sha256: string, reading: Reading): Promise<readonly NamedRecording[]> {
  const stored = await lab.store.recordings.get(sha256);
  const bytes = stored && (await lab.store.recordings.bytes(sha256));
  if (stored === undefined || bytes === undefined) throw problems.notFound('recording');
  return recordingsFrom(bytes, { format: stored.format, name: stored.fileName }, reading);
}
