import { unzlibSync, zlibSync } from 'fflate';

/** The part of the library's own objects that is touched here; its version is pinned, and tests look at the bytes. */
interface StreamObject {
  readonly data: Record<string, unknown>;
  buffer: Uint8Array[];
  finalize(): void;
}

interface WithStreams {
  ref(data: Record<string, unknown>): StreamObject;
}

/**
 * Packs the streams of a PDF by fflate instead of the zlib of this Node: zlib differs from version to version and from processor to
 * processor, and the same report shall be the same bytes on every machine. The document must be made with `compress: false`.
 */
export function packEverywhereAlike(document: unknown): void {
  const pdf = document as WithStreams;
  const make = pdf.ref.bind(pdf);
  pdf.ref = (data) => {
    const made = make(data);
    const finish = made.finalize.bind(made);
    made.finalize = () => {
      const { Filter, Subtype, Type } = made.data;
      if (made.buffer.length > 0 && Filter === undefined && Type !== 'Metadata') {
        made.buffer = [packed(joined(made.buffer))];
        made.data.Filter = 'FlateDecode';
      }
      // Pictures come packed; those with transparency by the zlib of this Node.
      else if (made.buffer.length > 0 && Subtype === 'Image' && Filter === 'FlateDecode')
        made.buffer = [packed(unzlibSync(joined(made.buffer)))];
      finish();
    };
    return made;
  };
}

const packed = (bytes: Uint8Array): Uint8Array => zlibSync(bytes, { level: 6 });

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
