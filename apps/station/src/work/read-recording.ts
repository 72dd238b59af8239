import type { Recording } from '@sthene/core';
import { bytesOf, formatOf } from '@sthene/formats';
import type { OpenLab } from '../labs/open-lab.ts';
import { ProblemError, problems } from '../server/problem-error.ts';

/** How a file has to be read, as the import chose; empty when the file says everything itself. */
export type Reading = Readonly<Record<string, string | number>>;

/** Reads a stored recording again from its original bytes. */
export async function readRecording(lab: OpenLab, sha256: string, label: string, reading: Reading): Promise<Recording> {
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
  const found = read.recordings.find((one) => one.label === label) ?? (label === '' ? read.recordings[0] : undefined);
  if (found === undefined) throw problems.notFound('recording in this file');
  return found.recording;
}
