import type { Recording } from '@sthene/core';
import { bytesOf, formatOf, type NamedRecording } from '@sthene/formats';
import { ProblemError, problems } from '../server/problem-error.ts';

/** How a file has to be read, as the import chose; empty when the file says everything itself. */
export type Reading = Readonly<Record<string, string | number>>;

/** The recordings in the bytes of a kept file. */
export async function recordingsFrom(
  bytes: Uint8Array,
  file: { readonly format: string; readonly name: string },
  reading: Reading,
): Promise<readonly NamedRecording[]> {
  const format = formatOf(file.format);
  if (format === undefined)
    throw new ProblemError(
      422,
      'format-unknown',
      `This station does not know the format "${file.format}".`,
      'The recording is kept unchanged. Open it with the version that imported it.',
    );
  const read = await format.read(bytesOf(bytes, file.name), reading);
  if (!read.ok) throw new ProblemError(422, read.error.code, read.error.message, read.error.next);
  return read.recordings;
}

/** One of several recordings of a file. */
export function recordingNamed(recordings: readonly NamedRecording[], label: string): Recording {
  const found = recordings.find((one) => one.label === label) ?? (label === '' ? recordings[0] : undefined);
  if (found === undefined) throw problems.notFound('recording in this file');
  return found.recording;
}
