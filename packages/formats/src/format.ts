import type { Recording } from '@sthene/core';
import type { FormatError } from './format-error.ts';

/** How sure a format is that bytes are its own, and why; the reason is a sentence for people. */
export interface Detection {
  readonly match: 'yes' | 'maybe' | 'no' | 'damaged';
  readonly reason: string;
  /** Byte offset or 1-based row the reason speaks of. */
  readonly at?: { readonly byte?: number; readonly row?: number };
}

/** Random access to bytes of known length: a file, a Blob, or memory. A reader asks for what it needs and no more. */
export interface ByteSource {
  readonly name: string;
  readonly length: number;
  /** Up to `length` bytes from `offset`; fewer only at the end. */
  read(offset: number, length: number): Promise<Uint8Array>;
}

/** What a read gave: recordings (a wide text file holds several), or errors as data. Partial content comes with notices. */
export type ReadResult<R = Recording> =
  | { readonly ok: true; readonly recordings: readonly NamedRecording<R>[] }
  | { readonly ok: false; readonly error: FormatError };

/** One recording of a file; `label` tells trials of one file apart ('' when the file holds one). */
export interface NamedRecording<R = Recording> {
  readonly label: string;
  readonly recording: R;
}

/**
 * One file format. `Options` are what a person may have to tell it (time column, rate, delimiter ...); all are optional.
 * `detect` looks at the first bytes and the length only.
 */
export interface Format<Options = unknown> {
  readonly id: string;
  readonly title: string;
  readonly extensions: readonly string[];
  readonly mediaType: string;
  detect(head: Uint8Array, length: number, name: string): Detection;
  read(source: ByteSource, options?: Options): Promise<ReadResult>;
  /** Absent for formats that are only read. Returns whole files by name (a package is several files). */
  write?(recording: Recording): Promise<Uint8Array>;
}
