import { blobOf, detectFormats, formats, type ReadResult } from '@sthene/formats';
import type { Reading } from './messages.ts';

/** The last files read, so that a change of the mapping does not read them again. */
const recent: { file: File; reading: string; result: Promise<ReadResult> }[] = [];
const most = 4;

/** Reads a file with the format the station will choose for it. */
export function readFile(file: File, reading: Reading): Promise<ReadResult> {
  const key = JSON.stringify(reading);
  const known = recent.find((one) => one.file === file && one.reading === key);
  if (known) return known.result;
  const result = read(file, reading);
  recent.unshift({ file, reading: key, result });
  recent.length = Math.min(recent.length, most);
  return result;
}

async function read(file: File, reading: Reading): Promise<ReadResult> {
  const source = blobOf(file, file.name);
  const format = (await detectFormats(source, formats)).find(({ detection }) => detection.match !== 'no')?.format;
  if (format === undefined)
    return {
      ok: false,
      error: { code: 'format-not-recognised', message: 'No format recognises this file.', next: '' },
    };
  return format.read(source, reading);
}
