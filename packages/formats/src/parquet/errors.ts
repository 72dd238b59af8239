import type { FormatError } from '../format-error.ts';

/** Refusals of the Parquet reader and writer; the README explains each. */
export type ParquetErrorCode =
  | 'parquet-empty'
  | 'parquet-not-parquet'
  | 'parquet-damaged'
  | 'parquet-too-large'
  | 'parquet-description-unfit'
  | 'parquet-no-numbers'
  | 'parquet-no-rate'
  | 'parquet-undescribable';

/** Thrown where a column turns out to be unreadable; caught at the format's door. */
export class ParquetFault extends Error {
  readonly error: FormatError;
  constructor(error: FormatError) {
    super(error.message);
    this.error = error;
  }
}

/** Builds a refusal; `code` is one of the list so that none is invented in passing. */
export function parquetError(
  code: ParquetErrorCode,
  message: string,
  next: string,
  more: Omit<FormatError, 'code' | 'message' | 'next'> = {},
): FormatError {
  return { code, message, next, ...more };
}

/** A fault of the file's structure at a byte. */
export function damaged(found: string, byte?: number): ParquetFault {
  return new ParquetFault(
    parquetError('parquet-damaged', `The Parquet file is damaged: ${found}.`, 'Copy the file again from its source.', {
      found,
      ...(byte === undefined ? {} : { at: { byte } }),
    }),
  );
}
