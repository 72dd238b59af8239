// What was made of it: by which method and protocol, what people decided, what was judged again, what was handed out.

export interface MethodRow {
  sha256: string;
  name: string;
  version: number;
  document: string;
  addedAt: string;
}

export interface ProtocolRow {
  id: string;
  revision: number;
  name: string;
  test: string;
  archived: number;
}

export interface ProtocolVersionRow {
  sha256: string;
  protocolId: string | null;
  version: number;
  name: string;
  test: string;
  document: string;
  by: string;
  addedAt: string;
}

export interface ResultRow {
  id: string;
  sequence: number;
  trialId: string;
  methodHash: string;
  recordingHash: string | null;
  application: string;
  versions: string;
  document: string;
  verdict: string;
  computedAt: string;
  /** The run whose candidate it is; left out of everything that is no candidate, as in every row from before there were any. */
  runId?: string | null | undefined;
}

export interface MetricValueRow {
  resultId: string;
  metric: string;
  value: number | null;
  reason: string | null;
  unit: string | null;
}

export interface DecisionRow {
  id: string;
  sequence: number;
  trialId: string;
  kind: string;
  payload: string;
  reason: string;
  reverts: string | null;
  by: string;
  role: string | null;
  station: string;
  at: string;
}

export interface RecomputationRow {
  id: string;
  revision: number;
  methodHash: string;
  scope: string;
  state: string;
  startedAt: string;
  endedAt: string | null;
  words: string;
}

export interface RecomputedRow {
  runId: string;
  trialId: string;
  trialRevision: number;
  sessionRevision: number;
  basis: number;
  beforeId: string | null;
  beforeVerdict: string | null;
  resultId: string | null;
  verdict: string | null;
  code: string | null;
  words: string | null;
}

export interface HandedOutRow {
  id: string;
  at: string;
  kind: string;
  personId: string;
  sessionId: string;
  test: string;
  metric: string;
  reference: string;
  word: string | null;
  value: number;
  unit: string;
}
