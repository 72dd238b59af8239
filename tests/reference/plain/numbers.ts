import type { Span } from './types.ts';

/** round(x) = floor(x + 0.5). */
export function round(x: number): number {
  return Math.floor(x + 0.5);
}

/** Number of samples in a time in milliseconds. */
export function samples(milliseconds: number, fs: number): number {
  return round((milliseconds * fs) / 1000);
}

/** Mean of the samples start ... end - 1, counted from the first of them: the mean of equal samples is exactly their value. */
export function mean(F: Float64Array, start: number, end: number): number {
  let sum = 0;
  for (let n = start; n < end; n++) sum += F[n]! - F[start]!;
  return F[start]! + sum / (end - start);
}

/** Sample SD (n - 1) of the samples start ... end - 1, in two passes. */
export function sd(F: Float64Array, start: number, end: number): number {
  const m = mean(F, start, end);
  let squares = 0;
  for (let n = start; n < end; n++) squares += (F[n]! - m) * (F[n]! - m);
  return Math.sqrt(squares / (end - start - 1));
}

/** F between samples: linear. */
export function at(F: Float64Array, x: number): number {
  const before = Math.floor(x);
  if (before === x) return F[before]!;
  return F[before]! + (x - before) * (F[before + 1]! - F[before]!);
}

/** Trapezoidal integral of F - level from sample `from` (whole) to position `to` (may be fractional), in unit x s. */
export function integral(F: Float64Array, from: number, to: number, fs: number, level: number): number {
  let area = 0;
  let n = from;
  for (; n + 1 <= to; n++) area += (F[n]! - level + (F[n + 1]! - level)) / 2;
  if (n < to) area += ((F[n]! - level + (at(F, to) - level)) / 2) * (to - n);
  return area / fs;
}

/** First index of the largest value among start ... end (both included). */
export function indexOfLargest(F: Float64Array, start: number, end: number): number {
  let best = start;
  for (let n = start; n <= end; n++) if (F[n]! > F[best]!) best = n;
  return best;
}

/** Largest mean of `length` samples in a row inside start ... end (both included); undefined when they do not fit. */
export function largestMean(F: Float64Array, length: number, start: number, end: number): number | undefined {
  let best: number | undefined;
  for (let k = start; k + length - 1 <= end; k++) {
    const m = mean(F, k, k + length);
    if (best === undefined || m > best) best = m;
  }
  return best;
}

/** Whether any sample from start to end (both included; fractional ends take in both neighbours) lies in one of the gaps. */
export function touches(gaps: readonly Span[], start: number, end: number): boolean {
  for (const gap of gaps) if (gap.start <= Math.ceil(end) && Math.floor(start) <= gap.end - 1) return true;
  return false;
}
