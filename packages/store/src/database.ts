/** Row types, one for each table; columns are snake_case in SQL. Flags are 0/1, JSON is text, instants are RFC 3339 text. */
export interface Database {
  people: PersonRow;
  squads: SquadRow;
  squadMembers: { squadId: string; personId: string };
  sessions: SessionRow;
  trials: TrialRow;
  recordings: RecordingRow;
  methods: MethodRow;
  protocols: ProtocolRow;
  protocolVersions: ProtocolVersionRow;
  results: ResultRow;
  metricValues: MetricValueRow;
  recomputations: RecomputationRow;
  recomputed: RecomputedRow;
  decisions: DecisionRow;
  importTemplates: TemplateRow;
  sources: SourceRow;
  rigs: RigRow;
  days: DayRow;
  dayEntries: DayEntryRow;
  gates: GateRow;
  athleteNotes: AthleteNoteRow;
  handedOut: HandedOutRow;
  blindStudies: BlindStudyRow;
  blindReadings: BlindReadingRow;
  devices: DeviceRow;
  captures: CaptureRow;
  trialOrigins: TrialOriginRow;
  videos: VideoRow;
  receivedImports: ReceivedImportRow;
  receivedSessions: ReceivedSessionRow;
  receivedValues: ReceivedValueRow;
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

export interface SourceRow {
  id: string;
  revision: number;
  name: string;
  description: string;
  active: number;
}

export interface RigRow {
  id: string;
  revision: number;
  name: string;
  letter: string;
  shape: string;
  sources: string;
  notes: string;
  active: number;
}

export interface DayRow {
  id: string;
  revision: number;
  date: string;
  title: string;
  status: string;
  plans: string;
  rigs: string;
  settings: string;
  notes: string;
  openedAt: string | null;
  closedAt: string | null;
}

export interface DayEntryRow {
  id: string;
  revision: number;
  dayId: string;
  personId: string;
  position: number;
  test: string;
  walkIn: number;
  state: string;
  fixedRig: string | null;
  readiness: string | null;
  setup: string;
  remaining: string | null;
  sessionId: string | null;
  notes: string;
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

export interface AthleteNoteRow {
  id: string;
  revision: number;
  personId: string;
  kind: string;
  fromDay: string;
  untilDay: string | null;
  text: string;
  limb: string | null;
  test: string | null;
  metric: string | null;
  value: number | null;
  unit: string | null;
  active: number;
}

export interface BlindStudyRow {
  id: string;
  revision: number;
  title: string;
  trials: string;
  readers: string;
  createdAt: string;
  closed: number;
}

export interface BlindReadingRow {
  id: string;
  revision: number;
  studyId: string;
  trialId: string;
  reader: number;
  onset: number | null;
  verdict: string;
  readAt: string;
}

export interface GateRow {
  id: string;
  revision: number;
  personId: string;
  kind: string;
  granted: number;
  limb: string;
  test: string | null;
  fromDay: string;
  untilDay: string | null;
  note: string;
  releasedBy: string | null;
  releasedAt: string | null;
  releaseReason: string | null;
}

export interface DeviceRow {
  id: string;
  revision: number;
  name: string;
  role: string;
  lastSeenAt: string;
}

export interface CaptureRow {
  id: string;
  revision: number;
  rigId: string;
  dayId: string | null;
  state: string;
  startedAt: string;
  endedAt: string | null;
  journals: string;
  samples: number;
  missing: number;
  words: string;
}

export interface TrialOriginRow {
  id: string;
  revision: number;
  trialId: string;
  captureId: string;
  entryId: string | null;
  spanStart: number;
  spanEnd: number;
  endedAt: string;
  facts: string;
}

export interface VideoRow {
  id: string;
  revision: number;
  rigId: string;
  personId: string;
  entryId: string | null;
  trialId: string | null;
  device: string;
  state: string;
  filmedAt: string;
  mediaType: string;
  sha256: string | null;
  byteCount: number;
  facts: string;
  nudge: number;
  droppedAt: string | null;
}

export interface ReceivedImportRow {
  id: string;
  revision: number;
  kind: string;
  fileSha256: string;
  fileName: string;
  byteCount: number;
  mapping: string;
  sessionCount: number;
  valueCount: number;
  importedAt: string;
  takenBack: number;
}

export interface ReceivedSessionRow {
  sessionId: string;
  importId: string;
  methodLabel: string;
  timeKnown: number;
}

export interface ReceivedValueRow {
  id: string;
  importId: string;
  sessionId: string;
  row: number;
  position: number | null;
  of: string;
  metric: string;
  value: number | null;
  unit: string;
  reason: string | null;
  givenValue: string;
  givenUnit: string;
  origin: string | null;
  facts: string;
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
