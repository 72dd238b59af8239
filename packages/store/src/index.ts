export type { AuditNote } from './audit/append.ts';
export type { AuditDetails, AuditEntry } from './audit/entry.ts';
export type { RecordProblem } from './audit/records.ts';
export type { AuditFilter, AuditRepository } from './audit/repository.ts';
export type { AuditVerdict, ChainEnd, ChainProblem } from './audit/verify.ts';
export type { Changes } from './changes.ts';
export * from './decisions/decision.ts';
export * from './decisions/effective.ts';
export type { DecisionRepository } from './decisions/repository.ts';
export type { EngineKind, EngineOptions } from './dialects/engine.ts';
export * from './errors.ts';
export type { FilePort, FolderEntry, OpenFile } from './files/file-port.ts';
export type { Bytes, FileStore, KeptFile } from './files/file-store.ts';
export * from './files/folder-file-store.ts';
export { type KeptFileReader, keptFileReader } from './files/kept-file-reader.ts';
export { nodeFilePort } from './files/node-file-port.ts';
export { migrations } from './migrations/index.ts';
export type { BeforeMigration } from './migrations/migrate.ts';
export type { Actor, Clock, Ids } from './ports.ts';
export type { ChangedSince } from './queries/changed-since.ts';
export type { JudgingBasis } from './queries/judging-basis.ts';
export type { MetricHistoryQuery, MetricPoint } from './queries/metric-history.ts';
export type { MetricOfSessions, ReceivedHistoryQuery } from './queries/received-history.ts';
export type { Flips, OutcomeFilter, PendingTrial, RecomputedTrial, ValueOfResult } from './queries/recomputed.ts';
export type { SessionFilter, SessionPage, SessionSummary } from './queries/session-list.ts';
export type { StandingTrial } from './queries/standing-in-session.ts';
export type { MetricValue, TrialStanding } from './queries/standings.ts';
export type { TrialView } from './queries/trial-view.ts';
export { type AthleteNote, type AthleteNoteRepository, athleteNoteKinds } from './records/athlete-notes.ts';
export type { BlindReading, BlindStudy, BlindStudyRepository } from './records/blind-studies.ts';
export { type Capture, type CaptureRepository, captureStates, type NewCapture } from './records/captures.ts';
export { type DayEntry, type DayEntryRepository, entryStates, type NewDayEntry } from './records/day-entries.ts';
export { type DayRepository, dayStatuses, type TestDay } from './records/days.ts';
export { type Device, type DeviceRepository, deviceRoles } from './records/devices.ts';
export { type Gate, type GateRepository, gateKinds, gateLimbs } from './records/gates.ts';
export { type HandedOut, type HandedOutRepository, handedOutKinds } from './records/handed-out.ts';
export type { MethodRepository, StoredMethod } from './records/methods.ts';
export { type NewPerson, type Person, type PersonFilter, type PersonRepository, sexes } from './records/people.ts';
export type { ProtocolRepository, StoredProtocol, StoredProtocolVersion } from './records/protocols.ts';
export type { ReceivedRepository } from './records/received.ts';
export {
  type NewReceivedImport,
  type NewReceivedSession,
  type NewReceivedValue,
  type ReceivedImport,
  type ReceivedSession,
  type ReceivedValue,
  receivedKinds,
  receivedOf,
} from './records/received-value.ts';
export { type Recomputation, type RecomputationState, recomputationStates } from './records/recomputation.ts';
export type { RecomputationRepository, RunCounts, TrialOutcome } from './records/recomputations.ts';
export type { FileProblem, NewRecording, RecordingRepository, StoredRecording } from './records/recordings.ts';
export type { ResultVersions, StoredResult } from './records/result.ts';
export { type MetricColumns, type ResultText, resultText } from './records/result-text.ts';
export type { NewResult, ResultRepository } from './records/results.ts';
export type { RigCheck, RigCheckRepository, RigCorrection } from './records/rig-checks.ts';
export type { Rig, RigRepository } from './records/rigs.ts';
export type { Session, SessionBodyWeight, Setup } from './records/session.ts';
export type { NewSession, SessionRepository } from './records/sessions.ts';
export type { Setting, SettingRepository } from './records/settings.ts';
export type { SourceRepository, StoredSource } from './records/sources.ts';
export type { NewSquad, Squad, SquadRepository } from './records/squads.ts';
export type { ImportTemplate, TemplateRepository } from './records/templates.ts';
export { type EffortKind, effortKinds, type Trial } from './records/trial.ts';
export type { TrialOrigin, TrialOriginRepository } from './records/trial-origins.ts';
export type { NewTrial, TrialRepository } from './records/trials.ts';
export { type NewVideo, type Video, type VideoRepository, videoStates } from './records/videos.ts';
export type { ChangeOptions, RevisedKind, Revision, RevisionRepository } from './revisions.ts';
export { openStore, type Repositories, type Store, type StoreOptions } from './store.ts';
