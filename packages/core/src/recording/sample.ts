/**
 * Time has three types that cannot be mixed: a sample index, monotonic nanoseconds, and a UTC instant.
 * They are branded numbers, bigints and strings, so that arithmetic stays plain and assignment does not.
 */
declare const brand: unique symbol;

/** 0-based index on a recording's sample grid; may be fractional where a definition interpolates. */
export type SampleIndex = number;

/** Nanoseconds of a monotonic clock with an arbitrary zero. */
export type MonotonicNanoseconds = bigint & { readonly [brand]: 'monotonic' };

/** An RFC 3339 instant in UTC, as in `2026-01-14T16:42:05.250Z`. */
export type UtcInstant = string & { readonly [brand]: 'utc' };

/** A run of samples: `start` inclusive, `end` exclusive. */
export interface SampleSpan {
  readonly start: SampleIndex;
  readonly end: SampleIndex;
}
