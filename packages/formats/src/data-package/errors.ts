import type { FormatError } from '../format-error.ts';

/** Refusals of the Data Package reader and writer; the README explains each. */
export type PackageErrorCode =
  | 'data-package-not-zip'
  | 'data-package-damaged'
  | 'data-package-unsafe-path'
  | 'data-package-too-large'
  | 'data-package-no-descriptor'
  | 'data-package-invalid'
  | 'data-package-file-missing'
  | 'data-package-file-changed'
  | 'data-package-bad-table'
  | 'data-package-no-recordings'
  | 'data-package-bad-input'
  | 'data-package-no-hashing';

/** Thrown inside and caught at the format's doors. */
export class PackageFault extends Error {
  readonly error: FormatError;
  constructor(error: FormatError) {
    super(error.message);
    this.error = error;
  }
}

/** A refusal with a code of the list. */
export function fault(
  code: PackageErrorCode,
  message: string,
  next: string,
  more: Omit<FormatError, 'code' | 'message' | 'next'> = {},
): PackageFault {
  return new PackageFault({ code, message, next, ...more });
}
