import { application, type ResultDocument, trialDocument } from '@sthene/contract';
import type { AnyMethod } from '@sthene/core';
import type { AnalysedRecording } from './analyze-file.ts';

export interface FileError {
  readonly file: string;
  readonly code: string;
  readonly message: string;
}

/** The result document (`sthene.result/1`) of a batch. */
export function resultDocumentOf(
  analysed: readonly AnalysedRecording[],
  errors: readonly FileError[],
  method: AnyMethod,
): ResultDocument {
  return {
    schema: 'sthene.result/1',
    app: application,
    recordings: analysed.map((one) => ({
      file: one.file,
      ...(one.label === '' ? {} : { label: one.label }),
      sha256: one.sha256,
      rate_hz: one.recording.sampleRate,
      samples: one.recording.sampleCount,
      notices: one.notices.map((notice) => ({ code: notice.code, message: notice.message })),
      trials: one.trials.map((trial) => trialDocument(trial, method)),
    })),
    errors: errors.map((error) => ({ ...error })),
  };
}
