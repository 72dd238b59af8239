// What was pulled, and from which file.

export interface SessionRow {
  id: string;
  revision: number;
  personId: string;
  protocolId: string;
  protocolVersion: number;
  startedAt: string;
  endedAt: string | null;
  rig: string | null;
  bodyWeightValue: number | null;
  bodyWeightFrom: string | null;
  bodyWeightWorn: string | null;
  gravity: number;
  setup: string;
  notes: string;
  resultsOnly: number;
  /** Left out where no protocol is known, as in every row from before there were any. */
  protocolHash?: string | null | undefined;
}

export interface TrialRow {
  id: string;
  revision: number;
  sessionId: string;
  position: number;
  effort: string;
  recordingHash: string | null;
  recordingLabel: string | null;
  /** JSON. */
  reading: string | null;
  forceSelection: string | null;
  spanStart: number | null;
  spanEnd: number | null;
  cue: number | null;
}

export interface RecordingRow {
  sha256: string;
  fileName: string;
  byteCount: number;
  mediaType: string;
  formatId: string;
  sampleRate: number;
  sampleCount: number;
  importedAt: string;
  nativeSha256: string | null;
}

export interface TemplateRow {
  id: string;
  revision: number;
  name: string;
  headerSignature: string;
  mapping: string;
  lastUsedAt: string | null;
}
