import { existsSync, statSync } from 'node:fs';
import { type AuditRepository, auditRepository } from './audit/repository.ts';
import type { ChainEnd } from './audit/verify.ts';
import { type DecisionRepository, decisionRepository } from './decisions/repository.ts';
import type { Engine, EngineKind, EngineOptions } from './dialects/engine.ts';
import { openEngine } from './dialects/open.ts';
import { refuseForeignFile } from './dialects/sqlite-file.ts';
import { StoreError } from './errors.ts';
import type { FileStore } from './files/file-store.ts';
import { backUpSqlite } from './migrations/backup.ts';
import { migrations as ownMigrations } from './migrations/index.ts';
import { type BeforeMigration, migrate } from './migrations/migrate.ts';
import type { Migration } from './migrations/migration.ts';
import type { Clock, Ids } from './ports.ts';
import { type AthleteNoteRepository, athleteNoteRepository } from './records/athlete-notes.ts';
import { type BlindStudyRepository, blindStudyRepository } from './records/blind-studies.ts';
import { type CaptureRepository, captureRepository } from './records/captures.ts';
import { type DayEntryRepository, dayEntryRepository } from './records/day-entries.ts';
import { type DayRepository, dayRepository } from './records/days.ts';
import { type DeviceRepository, deviceRepository } from './records/devices.ts';
import { type GateRepository, gateRepository } from './records/gates.ts';
import { type HandedOutRepository, handedOutRepository } from './records/handed-out.ts';
import { keptDocuments } from './records/kept-documents.ts';
import { type MethodRepository, methodRepository } from './records/methods.ts';
import { type PersonRepository, personRepository } from './records/people.ts';
import { type ProtocolRepository, protocolRepository } from './records/protocols.ts';
import { type ReceivedRepository, receivedRepository } from './records/received.ts';
import { type RecomputationRepository, recomputationRepository } from './records/recomputations.ts';
import { type RecordingRepository, recordingRepository } from './records/recordings.ts';
import { type ResultRepository, resultRepository } from './records/results.ts';
import { type RigCheckRepository, rigCheckRepository } from './records/rig-checks.ts';
import { type RigRepository, rigRepository } from './records/rigs.ts';
import { type SessionRepository, sessionRepository } from './records/sessions.ts';
import { type SettingRepository, settingRepository } from './records/settings.ts';
import { type SourceRepository, sourceRepository } from './records/sources.ts';
import { type SquadRepository, squadRepository } from './records/squads.ts';
import { type TemplateRepository, templateRepository } from './records/templates.ts';
import { type TrialOriginRepository, trialOriginRepository } from './records/trial-origins.ts';
import { type TrialRepository, trialRepository } from './records/trials.ts';
import { type VideoRepository, videoRepository } from './records/videos.ts';
import { type RevisionRepository, revisionRepository } from './revisions.ts';
import { inTransaction, type Scope } from './scope.ts';

/** What `openStore` needs. Clock, ids and the program's name and version are ports: the store has none of its own. */
export interface StoreOptions {
  readonly engine: EngineOptions;
  readonly files: FileStore;
  readonly clock: Clock;
  readonly ids: Ids;
  /** Name and version of the program, as `sthene 0.1.0`. */
  readonly application: string;
  /**
   * Called before the schema of existing data changes on PostgreSQL, where the copy is made with the server's own tools;
   * without it such a database is refused with `backup-needed`. SQLite files are copied by the store itself.
   */
  readonly beforeMigration?: BeforeMigration;
  /**
   * Where what is being written right now comes from, when that is not the station an actor names: the id of a tablet, for
   * example. It takes the place of the station in the audit trail and the history.
   */
  readonly place?: () => string | undefined;
}

/** The repositories; inside `transaction` they all work on that transaction. */
export interface Repositories {
  readonly people: PersonRepository;
  readonly squads: SquadRepository;
  readonly sessions: SessionRepository;
  readonly trials: TrialRepository;
  readonly recordings: RecordingRepository;
  readonly methods: MethodRepository;
  readonly protocols: ProtocolRepository;
  readonly results: ResultRepository;
  readonly recomputations: RecomputationRepository;
  readonly decisions: DecisionRepository;
  readonly templates: TemplateRepository;
  readonly captures: CaptureRepository;
  readonly dayEntries: DayEntryRepository;
  readonly days: DayRepository;
  readonly devices: DeviceRepository;
  readonly gates: GateRepository;
  readonly notes: AthleteNoteRepository;
  readonly handedOut: HandedOutRepository;
  readonly blindStudies: BlindStudyRepository;
  readonly rigs: RigRepository;
  readonly rigChecks: RigCheckRepository;
  readonly sources: SourceRepository;
  readonly origins: TrialOriginRepository;
  readonly settings: SettingRepository;
  readonly videos: VideoRepository;
  readonly received: ReceivedRepository;
  readonly revisions: RevisionRepository;
  readonly audit: AuditRepository;
}

/** An open store. */
export interface Store extends Repositories {
  readonly engine: EngineKind;
  readonly files: FileStore;
  /**
   * One business act: all of its writes are kept or none. Use only the repositories handed in; with the store's own ones a
   * SQLite store would wait for itself. Writers queue meanwhile, so files and computations belong outside.
   */
  transaction<T>(act: (inside: Repositories) => Promise<T>): Promise<T>;
  /**
   * Copies a SQLite database into a new file while it is in use and returns the end of the audit chain to keep with it.
   * Throws `backup-failed`; on PostgreSQL always, there use the server's tools.
   */
  backUp(file: string): Promise<ChainEnd | undefined>;
  close(): Promise<void>;
}

/** Opens a store, brings its schema up to date (after a backup), and hands out the repositories. */
export async function openStore(options: StoreOptions): Promise<Store> {
  return openStoreWith(options, ownMigrations);
}

/** As `openStore`, with another list of migrations: for tests of the upgrade itself. */
export async function openStoreWith(options: StoreOptions, migrations: readonly Migration[]): Promise<Store> {
  // Before the file is opened for writing, which alone would change it.
  if (options.engine.kind === 'sqlite' && isFilled(options.engine.file)) {
    refuseForeignFile(options.engine.file, migrations);
  }
  const engine = openEngine(options.engine);
  try {
    const { clock, application } = options;
    await migrate(engine, { migrations, clock, application, before: backupBefore(engine, options) });
  } catch (error) {
    await engine.db.destroy();
    throw error;
  }
  let closed = false;
  const scope: Scope = {
    get db() {
      if (closed) throw new StoreError('closed', 'The store has been closed.');
      return engine.db;
    },
    engine,
    clock: options.clock,
    ids: options.ids,
    application: options.application,
    documents: keptDocuments(),
    place: options.place,
  };
  return {
    ...repositories(scope, options.files),
    engine: engine.kind,
    files: options.files,
    transaction: (act) => inTransaction(scope, (inner) => act(repositories(inner, options.files))),
    backUp: async (file) => {
      // Read first: the copy may hold more than this end, never less.
      const end = await auditRepository(scope).last();
      await backUpSqlite(engine, file);
      return end;
    },
    close: async () => {
      if (closed) return;
      closed = true;
      await engine.db.destroy();
    },
  };
}

function repositories(scope: Scope, files: FileStore): Repositories {
  return {
    people: personRepository(scope),
    squads: squadRepository(scope),
    sessions: sessionRepository(scope),
    trials: trialRepository(scope),
    recordings: recordingRepository(scope, files),
    methods: methodRepository(scope),
    protocols: protocolRepository(scope),
    results: resultRepository(scope),
    recomputations: recomputationRepository(scope),
    decisions: decisionRepository(scope),
    templates: templateRepository(scope),
    captures: captureRepository(scope),
    dayEntries: dayEntryRepository(scope),
    days: dayRepository(scope),
    devices: deviceRepository(scope),
    gates: gateRepository(scope),
    notes: athleteNoteRepository(scope),
    handedOut: handedOutRepository(scope),
    blindStudies: blindStudyRepository(scope),
    rigs: rigRepository(scope),
    rigChecks: rigCheckRepository(scope),
    sources: sourceRepository(scope),
    origins: trialOriginRepository(scope),
    settings: settingRepository(scope),
    videos: videoRepository(scope, files),
    received: receivedRepository(scope, files),
    revisions: revisionRepository(scope),
    audit: auditRepository(scope),
  };
}

function isFilled(file: string): boolean {
  return existsSync(file) && statSync(file).size > 0;
}

function backupBefore(engine: Engine, options: StoreOptions): BeforeMigration {
  return async (step) => {
    if (options.engine.kind === 'sqlite') {
      const at = options.clock.now().replace(/[:.]/g, '-');
      await backUpSqlite(engine, `${options.engine.file}.schema-${step.from}.${at}.backup`);
    }
    if (options.beforeMigration !== undefined) return options.beforeMigration(step);
    if (options.engine.kind === 'postgres') {
      throw new StoreError(
        'backup-needed',
        `The schema would go from ${step.from} to ${step.to}. Make a backup with pg_dump first, then allow it.`,
        { from: step.from, to: step.to },
      );
    }
  };
}
