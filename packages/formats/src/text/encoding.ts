import type { TextEncodingName } from './options.ts';

/** Encoding of a file and the length of its byte-order mark. */
export interface FoundEncoding {
  readonly name: TextEncodingName;
  readonly mark: number;
}

/**
 * Encoding by byte-order mark, else UTF-8 when the head is valid UTF-8, else latin-1.
 *
 * @param head first bytes of the file
 * @param whole true when `head` is the whole file (else a character cut at its end is no fault)
 * @param given encoding named by a person; a matching mark is still skipped
 */
export function findEncoding(head: Uint8Array, whole: boolean, given?: TextEncodingName): FoundEncoding {
  const marked = byMark(head);
  if (given !== undefined) return { name: given, mark: marked?.name === given ? marked.mark : 0 };
  if (marked !== undefined) return marked;
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: !whole });
    return { name: 'utf-8', mark: 0 };
  } catch {
    return { name: 'latin-1', mark: 0 };
  }
}

function byMark(head: Uint8Array): FoundEncoding | undefined {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return { name: 'utf-8', mark: 3 };
  if (head[0] === 0xff && head[1] === 0xfe) return { name: 'utf-16le', mark: 2 };
  if (head[0] === 0xfe && head[1] === 0xff) return { name: 'utf-16be', mark: 2 };
  return undefined;
}

/** True for encodings that must be turned into UTF-8 before bytes can be scanned. */
export const isWide = (name: TextEncodingName): boolean => name === 'utf-16le' || name === 'utf-16be';

/** Encoding of the bytes the scanner sees. */
export const scannedAs = (name: TextEncodingName): 'utf-8' | 'windows-1252' =>
  name === 'latin-1' ? 'windows-1252' : 'utf-8';

/** A stateful converter of UTF-16 pieces into UTF-8 pieces; unpaired surrogates become U+FFFD. */
export function wideToUtf8(name: TextEncodingName): (piece: Uint8Array, last: boolean) => Uint8Array {
  const decoder = new TextDecoder(name, { ignoreBOM: true });
  const encoder = new TextEncoder();
  return (piece, last) => encoder.encode(decoder.decode(piece, { stream: !last }));
}
