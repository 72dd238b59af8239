import type { Recording } from '@sthene/core';
import { bytesOf, formatOf, type NamedRecording } from '@sthene/formats';
import type { OpenLab } from '../labs/open-lab.ts';
import { ProblemError, problems } from '../server/problem-error.ts';

/** How a file has to be read, as the import chose; empty when the file says everything itself. */
export type Reading = Readonly<Record<string, string | number>>;

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
  const format = formatOf(stored.format);
  if (format === undefined)
    throw new ProblemError(
      422,
      'format-unknown',
      `This station does not know the format "${stored.format}".`,
      'The recording is kept unchanged. Open it with the version that imported it.',
    );
  const read = await format.read(bytesOf(bytes, stored.fileName), reading);
  if (!read.ok) throw new ProblemError(422, read.error.code, read.error.message, read.error.next);
  return read.recordings;
}

function recordingNamed(recordings: readonly NamedRecording[], label: string): Recording {
  const found = recordings.find((one) => one.label === label) ?? (label === '' ? recordings[0] : undefined);
  if (found === undefined) throw problems.notFound('recording in this file');
  return found.recording;
}
