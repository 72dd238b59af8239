import type { ByteSource, Detection, Format } from './format.ts';
import { readFully } from './read-fully.ts';

/** One format's answer about a file. */
export interface FormatAnswer {
  readonly format: Format;
  readonly detection: Detection;
}

const ORDER: Readonly<Record<Detection['match'], number>> = { yes: 0, damaged: 1, maybe: 2, no: 3 };
const HEAD = 64 * 1024;

/**
 * Asks every format about a file and ranks the answers: yes, damaged (a format that knows its own broken file), maybe, no; equal
 * answers in favour of the format that owns the file's extension, then in the order given. Nobody is left out, so that an
 * unknown file can be told what each format missed.
 *
 * @param source reads its first 64 kB only
 * @param list formats to ask, usually all of the registry
 */
export async function detectFormats(source: ByteSource, list: readonly Format[]): Promise<FormatAnswer[]> {
  const head = await readFully(source, 0, HEAD);
  const extension = /\.[^.]+$/.exec(source.name)?.[0].toLowerCase() ?? '';
  return list
    .map((format, place) => ({ format, detection: format.detect(head, source.length, source.name), place }))
    .sort(
      (a, b) =>
        ORDER[a.detection.match] - ORDER[b.detection.match] ||
        Number(b.format.extensions.includes(extension)) - Number(a.format.extensions.includes(extension)) ||
        a.place - b.place,
    )
    .map(({ format, detection }) => ({ format, detection }));
}
