/** Row types, one for each table; columns are snake_case in SQL. Flags are 0/1, JSON is text, instants are RFC 3339 text. */
export interface Database {
  people: PersonRow;
  squads: SquadRow;
  squadMembers: { squadId: string; personId: string };
  sessions: SessionRow;
  trials: TrialRow;
  recordings: RecordingRow;
  methods: MethodRow;
  results: ResultRow;
  metricValues: MetricValueRow;
  decisions: DecisionRow;
  importTemplates: TemplateRow;
  settings: { key: string; revision: number; document: string };
  revisions: RevisionRow;
  audit: AuditRow;
  schemaMigrations: { number: number; name: string; appliedAt: string; application: string };
}

export interface PersonRow {
  id: string;
  revision: number;
  code: string;
  givenName: string;
  familyName: string;
  birthDate: string | null;
  sex: string | null;
  notes: string;
  active: number;
  searchKey: string;
}

export interface SquadRow {
  id: string;
  revision: number;
  name: string;
  notes: string;
  active: number;
}

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

export interface MethodRow {
  sha256: string;
  name: string;
  version: number;
  document: string;
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

export interface TemplateRow {
  id: string;
  revision: number;
  name: string;
  headerSignature: string;
  mapping: string;
  lastUsedAt: string | null;
}

export interface RevisionRow {
  subjectKind: string;
  subjectId: string;
  number: number;
  document: string;
  salt: string;
  reason: string;
  by: string;
  role: string | null;
  station: string;
  at: string;
}

export interface AuditRow {
  sequence: number;
  at: string;
  by: string;
  role: string | null;
  station: string;
  action: string;
  subjectKind: string;
  subjectId: string;
  details: string;
  previousHash: string;
  hash: string;
}
