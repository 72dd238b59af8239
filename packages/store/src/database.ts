import type {
  CaptureRow,
  DayEntryRow,
  DayRow,
  DeviceRow,
  RigRow,
  SourceRow,
  TrialOriginRow,
  VideoRow,
} from './rows/live.ts';
import type { AthleteNoteRow, GateRow, PersonRow, SquadRow } from './rows/people.ts';
import type { BlindReadingRow, BlindStudyRow } from './rows/readings.ts';
import type { ReceivedImportRow, ReceivedSessionRow, ReceivedValueRow } from './rows/received.ts';
import type {
  DecisionRow,
  HandedOutRow,
  MethodRow,
  MetricValueRow,
  ProtocolRow,
  ProtocolVersionRow,
  RecomputationRow,
  RecomputedRow,
  ResultRow,
} from './rows/results.ts';
import type { RigCheckRow, RigCorrectionRow } from './rows/rig-checks.ts';
import type { RecordingRow, SessionRow, TemplateRow, TrialRow } from './rows/sessions.ts';
import type { AuditRow, RevisionRow } from './rows/trail.ts';

export type * from './rows/live.ts';
export type * from './rows/people.ts';
export type * from './rows/readings.ts';
export type * from './rows/received.ts';
export type * from './rows/results.ts';
export type * from './rows/rig-checks.ts';
export type * from './rows/sessions.ts';
export type * from './rows/trail.ts';

/** Every table and the type of its rows; columns are snake_case in SQL. Flags are 0/1, JSON is text, instants are RFC 3339 text. */
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
  rigChecks: RigCheckRow;
  rigCorrections: RigCorrectionRow;
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
