import type { SampleSpan } from '../recording/sample.ts';
import type { AnalysisRequest } from './request.ts';

/** The requested span on whole samples, cut to the recording. */
export function wholeSpan({ forces, span }: Pick<AnalysisRequest, 'forces' | 'span'>): SampleSpan {
  if (span === undefined) return { start: 0, end: forces.sampleCount };
  const start = Math.min(Math.max(0, Math.floor(span.start)), forces.sampleCount);
  return { start, end: Math.max(start, Math.min(Math.ceil(span.end), forces.sampleCount)) };
}
