import type { RawSamples, SampleSpan } from '@sthene/core';

/** Runs of samples at which at least one float channel holds no number. Integer channels cannot say "missing". */
export function missingSpans(channels: readonly RawSamples[], sampleCount: number): SampleSpan[] {
  const missing = new Uint8Array(sampleCount);
  let any = false;
  for (const raw of channels) {
    if (!(raw instanceof Float32Array || raw instanceof Float64Array)) continue;
    for (let i = 0; i < raw.length; i++) {
      if (Number.isNaN(raw[i] as number)) {
        missing[i] = 1;
        any = true;
      }
    }
  }
  const spans: SampleSpan[] = [];
  if (!any) return spans;
  for (let i = 0; i < sampleCount; ) {
    if (missing[i] === 0) {
      i++;
      continue;
    }
    const start = i;
    while (i < sampleCount && missing[i] === 1) i++;
    spans.push({ start, end: i });
  }
  return spans;
}

/**
 * First sample of a tail of at least `least` samples in which every channel stays at stored zero, null if there is none.
 * Converters that stop before the cameras do leave such a tail; it is no measurement.
 */
export function zeroTail(channels: readonly RawSamples[], sampleCount: number, least: number): number | null {
  let start = 0;
  for (const raw of channels) {
    let i = sampleCount;
    while (i > start && raw[i - 1] === 0) i--;
    start = i;
  }
  return start > 0 && sampleCount - start >= least ? start : null;
}
