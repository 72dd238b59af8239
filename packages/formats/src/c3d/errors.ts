import type { FormatError } from '../format-error.ts';

/** Refusals of the C3D reader and writer; the README explains each. */
export type C3dErrorCode =
  | 'c3d-empty'
  | 'c3d-too-short'
  | 'c3d-not-c3d'
  | 'c3d-unknown-processor'
  | 'c3d-no-analog'
  | 'c3d-no-data'
  | 'c3d-no-rate'
  | 'c3d-too-many-parameters'
  | 'c3d-too-many-channels'
  | 'c3d-nothing-to-write';

/** Builds a refusal; `code` is one of the list so that none is invented in passing. */
export function refusal(
  code: C3dErrorCode,
  message: string,
  next: string,
  more: Omit<FormatError, 'code' | 'message' | 'next'> = {},
): { readonly ok: false; readonly error: FormatError } {
  return { ok: false, error: { code, message, next, ...more } };
}
