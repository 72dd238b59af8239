/**
 * A value, or the reason why there is none.
 *
 * A function that may fail for a reason of the data returns an Outcome; programming errors throw. NaN never stands for
 * "could not compute" and zero never stands for "missing".
 */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly reason: Reason };

/** Wraps a value. */
export const have = <T>(value: T): Outcome<T> => ({ ok: true, value });

/** Wraps a reason. */
export const lack = (reason: Reason): Outcome<never> => ({ ok: false, reason });

/** Every reason a computation may return. The words shown for each stand in `reasons.ts`; a test keeps the two equal. */
export type Reason =
  | 'no-standing-window'
  | 'no-quiet-window'
  | 'no-effort'
  | 'no-jump'
  | 'no-force-channel'
  | 'unit-unknown'
  | 'recording-too-short'
  | 'onset-not-found'
  | 'threshold-too-high'
  | 'interval-past-end'
  | 'gap-in-interval'
  | 'window-too-short'
  | 'one-side-only'
  | 'no-body-weight'
  | 'needs-body-weight'
  | 'not-defined'
  | 'too-few-trials'
  | 'too-few-values'
  | 'no-spread'
  | 'not-positive'
  | 'no-fit'
  | 'sources-not-known';
