import type { Recording } from '@sthene/core';
import { type ByteSource, detectFormats, formats } from '@sthene/formats';

export type ReadRecordings =
  | { readonly ok: true; readonly recordings: readonly { readonly label: string; readonly recording: Recording }[] }
  | { readonly ok: false; readonly words: string };

/** Reads a file by the format that knows it best; a text table without times is read with the promised rate. */
export async function readRecordings(source: ByteSource, rate: number): Promise<ReadRecordings> {
  const answers = await detectFormats(source, formats);
  const best = answers[0];
  if (best === undefined || best.detection.match === 'no') {
    return { ok: false, words: `No known format: ${best?.detection.reason ?? 'nothing to ask'}` };
  }
  const read = await best.format.read(source, best.format.id === 'text' ? { rate } : undefined);
  if (!read.ok) return { ok: false, words: `${read.error.message} ${read.error.next}` };
  return { ok: true, recordings: read.recordings };
}
