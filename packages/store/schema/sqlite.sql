CREATE TRIGGER audit_no_delete before delete on audit
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER audit_no_update before update on audit
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER decisions_no_delete before delete on decisions
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER decisions_no_update before update on decisions
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER handed_out_no_delete before delete on handed_out
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER handed_out_no_update before update on handed_out
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER methods_no_delete before delete on methods
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER methods_no_update before update on methods
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER metric_values_no_delete before delete on metric_values
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER metric_values_no_update before update on metric_values
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER protocol_versions_no_delete before delete on protocol_versions
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER protocol_versions_no_update before update on protocol_versions
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER received_sessions_no_delete before delete on received_sessions
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER received_sessions_no_update before update on received_sessions
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER received_values_no_delete before delete on received_values
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER received_values_no_update before update on received_values
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER results_no_delete before delete on results
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER results_no_update before update on results
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER revisions_no_delete before delete on revisions
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER revisions_no_update before update on revisions
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER rig_checks_no_delete before delete on rig_checks
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER rig_checks_no_update before update on rig_checks
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER rig_corrections_no_delete before delete on rig_corrections
  begin select raise(abort, 'append-only'); end;

CREATE TRIGGER rig_corrections_no_update before update on rig_corrections
  begin select raise(abort, 'append-only'); end;

CREATE TABLE athlete_notes (
  id text primary key not null,
  revision bigint not null,
  person_id text not null references people (id),
  kind text not null check (kind in ('remark', 'injury', 'target', 'position')),
  from_day text not null,
  until_day text,
  "text" text not null,
  limb text check (limb in ('both', 'left', 'right')),
  test text,
  metric text,
  value double precision,
  unit text,
  active integer not null check (active in (0, 1)),
  check ((kind = 'injury') = (limb is not null)),
  check ((kind = 'target') = (value is not null)),
  check ((value is null) = (metric is null)),
  check ((value is null) = (unit is null))
    );

CREATE TABLE audit (
  sequence bigint primary key not null,
  at text not null,
  "by" text not null,
  role text,
  station text not null,
  action text not null,
  subject_kind text not null,
  subject_id text not null,
  details text not null,
  previous_hash text not null unique,
  hash text not null unique
    );

CREATE TABLE blind_readings (
  id text primary key not null,
  revision bigint not null,
  study_id text not null references blind_studies (id),
  trial_id text not null references trials (id),
  reader integer not null,
  onset double precision,
  verdict text not null check (verdict in ('counts', 'look-again', 'repeat')),
  read_at text not null,
  unique (study_id, reader, trial_id)
    );

CREATE TABLE blind_studies (
  id text primary key not null,
  revision bigint not null,
  title text not null,
  trials text not null,
  readers text not null,
  created_at text not null,
  closed integer not null check (closed in (0, 1))
    );

CREATE TABLE captures (
  id text primary key not null,
  revision bigint not null,
  rig_id text not null references rigs (id),
  day_id text references days (id),
  state text not null check (state in ('running', 'closed', 'recovered', 'damaged')),
  started_at text not null,
  ended_at text,
  journals text not null,
  samples bigint not null,
  missing bigint not null,
  words text not null
    );

CREATE TABLE day_entries (
  id text primary key not null,
  revision bigint not null,
  day_id text not null references days (id),
  person_id text not null references people (id),
  position double precision not null,
  test text not null,
  walk_in integer not null check (walk_in in (0, 1)),
  state text not null check (state in ('planned', 'warming-up', 'left', 'done', 'removed')),
  fixed_rig text references rigs (id),
  readiness text,
  setup text not null,
  remaining text,
  session_id text references sessions (id),
  notes text not null
    );

CREATE TABLE days (
  id text primary key not null,
  revision bigint not null,
  date text not null,
  title text not null,
  status text not null check (status in ('planned', 'open', 'closed')),
  plans text not null,
  rigs text not null,
  settings text not null,
  notes text not null,
  opened_at text,
  closed_at text
    );

CREATE TABLE decisions (
  id text primary key not null,
  sequence bigint not null unique references audit (sequence),
  trial_id text not null references trials (id),
  kind text not null,
  payload text not null,
  reason text not null,
  reverts text references decisions (id),
  "by" text not null,
  role text,
  station text not null,
  at text not null
    );

CREATE TABLE devices (
  id text primary key not null,
  revision bigint not null,
  name text not null,
  role text not null check (role in ('operator', 'wall', 'viewer')),
  last_seen_at text not null
    );

CREATE TABLE gates (
  id text primary key not null,
  revision bigint not null,
  person_id text not null references people (id),
  kind text not null check (kind in ('clearance', 'submaximal-only', 'screening', 'consent', 'pain-stop')),
  granted integer not null check (granted in (0, 1)),
  limb text not null check (limb in ('both', 'left', 'right')),
  test text,
  from_day text not null,
  until_day text,
  note text not null,
  released_by text,
  released_at text,
  release_reason text,
  check ((released_by is null) = (released_at is null))
    );

CREATE TABLE handed_out (
  id text primary key not null,
  at text not null,
  kind text not null check (kind in ('athlete', 'squad')),
  person_id text not null references people (id),
  session_id text not null references sessions (id),
  test text not null,
  metric text not null,
  reference text not null,
  word text,
  value double precision not null,
  unit text not null
    );

CREATE TABLE import_templates (
  id text primary key not null,
  revision bigint not null,
  name text not null unique,
  header_signature text not null,
  mapping text not null,
  last_used_at text
    );

CREATE TABLE methods (
  sha256 text primary key not null check (length(sha256) = 64),
  name text not null,
  version integer not null,
  document text not null,
  added_at text not null,
  unique (name, version, sha256)
    );

CREATE TABLE metric_values (
  result_id text not null references results (id),
  metric text not null,
  value double precision,
  reason text,
  unit text,
  primary key (result_id, metric),
  check ((value is null) <> (reason is null))
    );

CREATE TABLE people (
  id text primary key not null,
  revision bigint not null,
  code text not null unique,
  given_name text not null,
  family_name text not null,
  birth_date text,
  sex text,
  notes text not null,
  active integer not null check (active in (0, 1)),
  search_key text not null
    );

CREATE TABLE protocol_versions (
  sha256 text primary key not null,
  protocol_id text references protocols (id),
  version bigint not null,
  name text not null,
  test text not null,
  document text not null,
  "by" text not null,
  added_at text not null,
  unique (protocol_id, version)
    );

CREATE TABLE protocols (
  id text primary key not null,
  revision bigint not null,
  name text not null unique,
  test text not null,
  archived integer not null check (archived in (0, 1))
    );

CREATE TABLE received_imports (
  id text primary key not null,
  revision bigint not null,
  kind text not null check (kind in ('table', 'exchange')),
  file_sha256 text not null check (length(file_sha256) = 64),
  file_name text not null,
  byte_count bigint not null,
  mapping text not null,
  session_count bigint not null,
  value_count bigint not null,
  imported_at text not null,
  taken_back integer not null check (taken_back in (0, 1))
    );

CREATE TABLE received_sessions (
  session_id text primary key not null references sessions (id),
  import_id text not null references received_imports (id),
  method_label text not null check (length(method_label) > 0),
  time_known integer not null check (time_known in (0, 1))
    );

CREATE TABLE received_values (
  id text primary key not null,
  import_id text not null references received_imports (id),
  session_id text not null references received_sessions (session_id),
  "row" bigint not null,
  position bigint,
  "of" text not null check ("of" in ('trial', 'mean', 'best', 'unknown')),
  metric text not null,
  value double precision,
  unit text not null,
  reason text,
  given_value text not null,
  given_unit text not null,
  origin text,
  facts text not null,
  check ((value is null) <> (reason is null))
    );

CREATE TABLE recomputations (
  id text primary key not null,
  revision bigint not null,
  method_hash text not null references methods (sha256),
  scope text not null,
  state text not null check (state in ('running', 'paused', 'finished', 'adopted', 'discarded', 'failed')),
  started_at text not null,
  ended_at text,
  words text not null
    );

CREATE TABLE recomputed (
  run_id text not null references recomputations (id),
  trial_id text not null references trials (id),
  trial_revision bigint not null,
  session_revision bigint not null,
  basis bigint not null,
  before_id text references results (id),
  before_verdict text,
  result_id text references results (id),
  verdict text,
  code text,
  words text,
  primary key (run_id, trial_id),
  check ((result_id is null) = (code is not null)),
  check ((before_id is null) = (before_verdict is null)),
  check ((result_id is null) = (verdict is null))
    );

CREATE TABLE recordings (
  sha256 text primary key not null check (length(sha256) = 64),
  file_name text not null,
  byte_count bigint not null,
  media_type text not null,
  format_id text not null,
  sample_rate double precision not null,
  sample_count bigint not null,
  imported_at text not null,
  native_sha256 text
    );

CREATE TABLE results (
  id text primary key not null,
  sequence bigint not null unique references audit (sequence),
  trial_id text not null references trials (id),
  method_hash text not null references methods (sha256),
  recording_hash text references recordings (sha256),
  application text not null,
  versions text not null,
  document text not null,
  verdict text not null check (verdict in ('counts', 'look-again', 'repeat')),
  computed_at text not null
    , run_id text references recomputations (id));

CREATE TABLE revisions (
  subject_kind text not null,
  subject_id text not null,
  number bigint not null,
  document text not null,
  salt text not null,
  reason text not null,
  "by" text not null,
  role text,
  station text not null,
  at text not null,
  primary key (subject_kind, subject_id, number)
    );

CREATE TABLE rig_checks (
  id text primary key not null,
  rig_id text not null references rigs (id),
  sequence bigint not null unique,
  at text not null,
  "by" text not null,
  role text,
  station text not null,
  document text not null,
  result text not null,
  verdict text not null check (verdict in ('passes', 'look', 'fails', 'incomplete')),
  note text not null
    );

CREATE TABLE rig_corrections (
  id text primary key not null,
  rig_id text not null references rigs (id),
  check_id text references rig_checks (id),
  sequence bigint not null unique,
  at text not null,
  "by" text not null,
  role text,
  station text not null,
  plates text not null,
  reason text not null
    );

CREATE TABLE rigs (
  id text primary key not null,
  revision bigint not null,
  name text not null unique,
  letter text not null,
  shape text not null,
  sources text not null,
  notes text not null,
  active integer not null check (active in (0, 1))
    );

CREATE TABLE "schema_migrations" ("number" integer not null primary key, "name" text not null, "applied_at" text not null, "application" text not null);

CREATE TABLE sessions (
  id text primary key not null,
  revision bigint not null,
  person_id text not null references people (id),
  protocol_id text not null,
  protocol_version integer not null,
  started_at text not null,
  ended_at text,
  rig text,
  body_weight_value double precision,
  body_weight_from text,
  body_weight_worn text,
  gravity double precision not null,
  setup text not null,
  notes text not null,
  results_only integer not null check (results_only in (0, 1)), protocol_hash text references protocol_versions (sha256),
  check ((body_weight_value is null) = (body_weight_from is null))
    );

CREATE TABLE settings (
  key text primary key not null,
  revision bigint not null,
  document text not null
    );

CREATE TABLE sources (
  id text primary key not null,
  revision bigint not null,
  name text not null unique,
  description text not null,
  active integer not null check (active in (0, 1))
    );

CREATE TABLE squad_members (
  squad_id text not null references squads (id),
  person_id text not null references people (id),
  primary key (squad_id, person_id)
    );

CREATE TABLE squads (
  id text primary key not null,
  revision bigint not null,
  name text not null unique,
  notes text not null,
  active integer not null check (active in (0, 1))
    );

CREATE TABLE trial_origins (
  id text primary key not null,
  revision bigint not null,
  trial_id text not null unique references trials (id),
  capture_id text not null references captures (id),
  entry_id text references day_entries (id),
  span_start double precision not null,
  span_end double precision not null,
  ended_at text not null,
  facts text not null,
  unique (capture_id, span_start)
    );

CREATE TABLE trials (
  id text primary key not null,
  revision bigint not null,
  session_id text not null references sessions (id),
  position integer not null,
  effort text not null check (effort in ('maximal', 'submaximal', 'familiarisation')),
  recording_hash text references recordings (sha256),
  recording_label text,
  reading text,
  force_selection text,
  span_start double precision,
  span_end double precision,
  cue double precision,
  unique (session_id, position),
  check ((span_start is null) = (span_end is null))
    );

CREATE TABLE videos (
  id text primary key not null,
  revision bigint not null,
  rig_id text not null references rigs (id),
  person_id text not null references people (id),
  entry_id text references day_entries (id),
  trial_id text references trials (id),
  device text not null,
  state text not null check (state in ('receiving', 'stored', 'dropped', 'unreadable')),
  filmed_at text not null,
  media_type text not null,
  sha256 text,
  byte_count bigint not null,
  facts text not null,
  nudge double precision not null,
  dropped_at text,
  check ((state = 'dropped') = (dropped_at is not null))
    );

CREATE INDEX athlete_notes_by_kind on athlete_notes (kind, from_day, id);

CREATE INDEX athlete_notes_by_person on athlete_notes (person_id, from_day, id);

CREATE INDEX audit_by_subject on audit (subject_kind, subject_id, sequence);

CREATE INDEX captures_by_start on captures (started_at, id);

CREATE INDEX day_entries_by_day on day_entries (day_id, position, id);

CREATE INDEX day_entries_by_person on day_entries (person_id, id);

CREATE INDEX days_by_date on days (date, id);

CREATE INDEX decisions_by_trial on decisions (trial_id, sequence);

CREATE INDEX gates_by_person on gates (person_id, id);

CREATE INDEX handed_out_by_session on handed_out (session_id, metric, kind, reference);

CREATE INDEX import_templates_by_header on import_templates (header_signature);

CREATE INDEX received_imports_by_file on received_imports (file_sha256);

CREATE INDEX received_sessions_by_import on received_sessions (import_id);

CREATE INDEX received_values_by_import on received_values (import_id, id);

CREATE INDEX received_values_by_origin on received_values (origin);

CREATE INDEX received_values_by_session on received_values (session_id, metric);

CREATE INDEX recomputations_by_state on recomputations (state, started_at);

CREATE INDEX results_by_trial on results (trial_id, method_hash, sequence);

CREATE INDEX results_in_force on results (trial_id, sequence, run_id, verdict, method_hash, id);

CREATE INDEX rig_checks_by_rig on rig_checks (rig_id, sequence);

CREATE INDEX rig_corrections_by_rig on rig_corrections (rig_id, sequence);

CREATE INDEX sessions_by_person on sessions (person_id, started_at);

CREATE INDEX sessions_by_protocol on sessions (protocol_hash, started_at);

CREATE INDEX sessions_by_start on sessions (started_at, id);

CREATE INDEX squad_members_by_person on squad_members (person_id);

CREATE INDEX trial_origins_by_entry on trial_origins (entry_id, ended_at);

CREATE INDEX trials_by_recording on trials (recording_hash);

CREATE INDEX videos_by_file on videos (sha256);

CREATE INDEX videos_by_state on videos (state, filmed_at, id);

CREATE INDEX videos_by_trial on videos (trial_id, id);
