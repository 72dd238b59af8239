create table athlete_notes (
  id text collate "C" not null,
  revision bigint not null,
  person_id text collate "C" not null,
  kind text collate "C" not null,
  from_day text collate "C" not null,
  until_day text collate "C",
  text text collate "C" not null,
  limb text collate "C",
  test text collate "C",
  metric text collate "C",
  value double precision,
  unit text collate "C",
  active integer not null,
  constraint athlete_notes_active_check CHECK ((active = ANY (ARRAY[0, 1]))),
  constraint athlete_notes_check CHECK (((kind = 'injury'::text) = (limb IS NOT NULL))),
  constraint athlete_notes_check1 CHECK (((kind = 'target'::text) = (value IS NOT NULL))),
  constraint athlete_notes_check2 CHECK (((value IS NULL) = (metric IS NULL))),
  constraint athlete_notes_check3 CHECK (((value IS NULL) = (unit IS NULL))),
  constraint athlete_notes_kind_check CHECK ((kind = ANY (ARRAY['remark'::text, 'injury'::text, 'target'::text, 'position'::text]))),
  constraint athlete_notes_limb_check CHECK ((limb = ANY (ARRAY['both'::text, 'left'::text, 'right'::text]))),
  constraint athlete_notes_person_id_fkey FOREIGN KEY (person_id) REFERENCES people(id),
  constraint athlete_notes_pkey PRIMARY KEY (id)
);

create table audit (
  sequence bigint not null,
  at text collate "C" not null,
  by text collate "C" not null,
  role text collate "C",
  station text collate "C" not null,
  action text collate "C" not null,
  subject_kind text collate "C" not null,
  subject_id text collate "C" not null,
  details text collate "C" not null,
  previous_hash text collate "C" not null,
  hash text collate "C" not null,
  constraint audit_hash_key UNIQUE (hash),
  constraint audit_pkey PRIMARY KEY (sequence),
  constraint audit_previous_hash_key UNIQUE (previous_hash)
);

create table blind_readings (
  id text collate "C" not null,
  revision bigint not null,
  study_id text collate "C" not null,
  trial_id text collate "C" not null,
  reader integer not null,
  onset double precision,
  verdict text collate "C" not null,
  read_at text collate "C" not null,
  constraint blind_readings_pkey PRIMARY KEY (id),
  constraint blind_readings_study_id_fkey FOREIGN KEY (study_id) REFERENCES blind_studies(id),
  constraint blind_readings_study_id_reader_trial_id_key UNIQUE (study_id, reader, trial_id),
  constraint blind_readings_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trials(id),
  constraint blind_readings_verdict_check CHECK ((verdict = ANY (ARRAY['counts'::text, 'look-again'::text, 'repeat'::text])))
);

create table blind_studies (
  id text collate "C" not null,
  revision bigint not null,
  title text collate "C" not null,
  trials text collate "C" not null,
  readers text collate "C" not null,
  created_at text collate "C" not null,
  closed integer not null,
  constraint blind_studies_closed_check CHECK ((closed = ANY (ARRAY[0, 1]))),
  constraint blind_studies_pkey PRIMARY KEY (id)
);

create table captures (
  id text collate "C" not null,
  revision bigint not null,
  rig_id text collate "C" not null,
  day_id text collate "C",
  state text collate "C" not null,
  started_at text collate "C" not null,
  ended_at text collate "C",
  journals text collate "C" not null,
  samples bigint not null,
  missing bigint not null,
  words text collate "C" not null,
  constraint captures_day_id_fkey FOREIGN KEY (day_id) REFERENCES days(id),
  constraint captures_pkey PRIMARY KEY (id),
  constraint captures_rig_id_fkey FOREIGN KEY (rig_id) REFERENCES rigs(id),
  constraint captures_state_check CHECK ((state = ANY (ARRAY['running'::text, 'closed'::text, 'recovered'::text, 'damaged'::text])))
);

create table day_entries (
  id text collate "C" not null,
  revision bigint not null,
  day_id text collate "C" not null,
  person_id text collate "C" not null,
  position double precision not null,
  test text collate "C" not null,
  walk_in integer not null,
  state text collate "C" not null,
  fixed_rig text collate "C",
  readiness text collate "C",
  setup text collate "C" not null,
  remaining text collate "C",
  session_id text collate "C",
  notes text collate "C" not null,
  constraint day_entries_day_id_fkey FOREIGN KEY (day_id) REFERENCES days(id),
  constraint day_entries_fixed_rig_fkey FOREIGN KEY (fixed_rig) REFERENCES rigs(id),
  constraint day_entries_person_id_fkey FOREIGN KEY (person_id) REFERENCES people(id),
  constraint day_entries_pkey PRIMARY KEY (id),
  constraint day_entries_session_id_fkey FOREIGN KEY (session_id) REFERENCES sessions(id),
  constraint day_entries_state_check CHECK ((state = ANY (ARRAY['planned'::text, 'warming-up'::text, 'left'::text, 'done'::text, 'removed'::text]))),
  constraint day_entries_walk_in_check CHECK ((walk_in = ANY (ARRAY[0, 1])))
);

create table days (
  id text collate "C" not null,
  revision bigint not null,
  date text collate "C" not null,
  title text collate "C" not null,
  status text collate "C" not null,
  plans text collate "C" not null,
  rigs text collate "C" not null,
  settings text collate "C" not null,
  notes text collate "C" not null,
  opened_at text collate "C",
  closed_at text collate "C",
  constraint days_pkey PRIMARY KEY (id),
  constraint days_status_check CHECK ((status = ANY (ARRAY['planned'::text, 'open'::text, 'closed'::text])))
);

create table decisions (
  id text collate "C" not null,
  sequence bigint not null,
  trial_id text collate "C" not null,
  kind text collate "C" not null,
  payload text collate "C" not null,
  reason text collate "C" not null,
  reverts text collate "C",
  by text collate "C" not null,
  role text collate "C",
  station text collate "C" not null,
  at text collate "C" not null,
  constraint decisions_pkey PRIMARY KEY (id),
  constraint decisions_reverts_fkey FOREIGN KEY (reverts) REFERENCES decisions(id),
  constraint decisions_sequence_fkey FOREIGN KEY (sequence) REFERENCES audit(sequence),
  constraint decisions_sequence_key UNIQUE (sequence),
  constraint decisions_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trials(id)
);

create table devices (
  id text collate "C" not null,
  revision bigint not null,
  name text collate "C" not null,
  role text collate "C" not null,
  last_seen_at text collate "C" not null,
  constraint devices_pkey PRIMARY KEY (id),
  constraint devices_role_check CHECK ((role = ANY (ARRAY['operator'::text, 'wall'::text, 'viewer'::text])))
);

create table gates (
  id text collate "C" not null,
  revision bigint not null,
  person_id text collate "C" not null,
  kind text collate "C" not null,
  granted integer not null,
  limb text collate "C" not null,
  test text collate "C",
  from_day text collate "C" not null,
  until_day text collate "C",
  note text collate "C" not null,
  released_by text collate "C",
  released_at text collate "C",
  release_reason text collate "C",
  constraint gates_check CHECK (((released_by IS NULL) = (released_at IS NULL))),
  constraint gates_granted_check CHECK ((granted = ANY (ARRAY[0, 1]))),
  constraint gates_kind_check CHECK ((kind = ANY (ARRAY['clearance'::text, 'submaximal-only'::text, 'screening'::text, 'consent'::text, 'pain-stop'::text]))),
  constraint gates_limb_check CHECK ((limb = ANY (ARRAY['both'::text, 'left'::text, 'right'::text]))),
  constraint gates_person_id_fkey FOREIGN KEY (person_id) REFERENCES people(id),
  constraint gates_pkey PRIMARY KEY (id)
);

create table handed_out (
  id text collate "C" not null,
  at text collate "C" not null,
  kind text collate "C" not null,
  person_id text collate "C" not null,
  session_id text collate "C" not null,
  test text collate "C" not null,
  metric text collate "C" not null,
  reference text collate "C" not null,
  word text collate "C",
  value double precision not null,
  unit text collate "C" not null,
  constraint handed_out_kind_check CHECK ((kind = ANY (ARRAY['athlete'::text, 'squad'::text]))),
  constraint handed_out_person_id_fkey FOREIGN KEY (person_id) REFERENCES people(id),
  constraint handed_out_pkey PRIMARY KEY (id),
  constraint handed_out_session_id_fkey FOREIGN KEY (session_id) REFERENCES sessions(id)
);

create table import_templates (
  id text collate "C" not null,
  revision bigint not null,
  name text collate "C" not null,
  header_signature text collate "C" not null,
  mapping text collate "C" not null,
  last_used_at text collate "C",
  constraint import_templates_name_key UNIQUE (name),
  constraint import_templates_pkey PRIMARY KEY (id)
);

create table methods (
  sha256 text collate "C" not null,
  name text collate "C" not null,
  version integer not null,
  document text collate "C" not null,
  added_at text collate "C" not null,
  constraint methods_name_version_sha256_key UNIQUE (name, version, sha256),
  constraint methods_pkey PRIMARY KEY (sha256),
  constraint methods_sha256_check CHECK ((length(sha256) = 64))
);

create table metric_values (
  result_id text collate "C" not null,
  metric text collate "C" not null,
  value double precision,
  reason text collate "C",
  unit text collate "C",
  constraint metric_values_check CHECK (((value IS NULL) <> (reason IS NULL))),
  constraint metric_values_pkey PRIMARY KEY (result_id, metric),
  constraint metric_values_result_id_fkey FOREIGN KEY (result_id) REFERENCES results(id)
);

create table people (
  id text collate "C" not null,
  revision bigint not null,
  code text collate "C" not null,
  given_name text collate "C" not null,
  family_name text collate "C" not null,
  birth_date text collate "C",
  sex text collate "C",
  notes text collate "C" not null,
  active integer not null,
  search_key text collate "C" not null,
  constraint people_active_check CHECK ((active = ANY (ARRAY[0, 1]))),
  constraint people_code_key UNIQUE (code),
  constraint people_pkey PRIMARY KEY (id)
);

create table protocol_versions (
  sha256 text collate "C" not null,
  protocol_id text collate "C",
  version bigint not null,
  name text collate "C" not null,
  test text collate "C" not null,
  document text collate "C" not null,
  by text collate "C" not null,
  added_at text collate "C" not null,
  constraint protocol_versions_pkey PRIMARY KEY (sha256),
  constraint protocol_versions_protocol_id_fkey FOREIGN KEY (protocol_id) REFERENCES protocols(id),
  constraint protocol_versions_protocol_id_version_key UNIQUE (protocol_id, version)
);

create table protocols (
  id text collate "C" not null,
  revision bigint not null,
  name text collate "C" not null,
  test text collate "C" not null,
  archived integer not null,
  constraint protocols_archived_check CHECK ((archived = ANY (ARRAY[0, 1]))),
  constraint protocols_name_key UNIQUE (name),
  constraint protocols_pkey PRIMARY KEY (id)
);

create table received_imports (
  id text collate "C" not null,
  revision bigint not null,
  kind text collate "C" not null,
  file_sha256 text collate "C" not null,
  file_name text collate "C" not null,
  byte_count bigint not null,
  mapping text collate "C" not null,
  session_count bigint not null,
  value_count bigint not null,
  imported_at text collate "C" not null,
  taken_back integer not null,
  constraint received_imports_file_sha256_check CHECK ((length(file_sha256) = 64)),
  constraint received_imports_kind_check CHECK ((kind = ANY (ARRAY['table'::text, 'exchange'::text]))),
  constraint received_imports_pkey PRIMARY KEY (id),
  constraint received_imports_taken_back_check CHECK ((taken_back = ANY (ARRAY[0, 1])))
);

create table received_sessions (
  session_id text collate "C" not null,
  import_id text collate "C" not null,
  method_label text collate "C" not null,
  time_known integer not null,
  constraint received_sessions_import_id_fkey FOREIGN KEY (import_id) REFERENCES received_imports(id),
  constraint received_sessions_method_label_check CHECK ((length(method_label) > 0)),
  constraint received_sessions_pkey PRIMARY KEY (session_id),
  constraint received_sessions_session_id_fkey FOREIGN KEY (session_id) REFERENCES sessions(id),
  constraint received_sessions_time_known_check CHECK ((time_known = ANY (ARRAY[0, 1])))
);

create table received_values (
  id text collate "C" not null,
  import_id text collate "C" not null,
  session_id text collate "C" not null,
  row bigint not null,
  position bigint,
  of text collate "C" not null,
  metric text collate "C" not null,
  value double precision,
  unit text collate "C" not null,
  reason text collate "C",
  given_value text collate "C" not null,
  given_unit text collate "C" not null,
  origin text collate "C",
  facts text collate "C" not null,
  constraint received_values_check CHECK (((value IS NULL) <> (reason IS NULL))),
  constraint received_values_import_id_fkey FOREIGN KEY (import_id) REFERENCES received_imports(id),
  constraint received_values_of_check CHECK ((of = ANY (ARRAY['trial'::text, 'mean'::text, 'best'::text, 'unknown'::text]))),
  constraint received_values_pkey PRIMARY KEY (id),
  constraint received_values_session_id_fkey FOREIGN KEY (session_id) REFERENCES received_sessions(session_id)
);

create table recomputations (
  id text collate "C" not null,
  revision bigint not null,
  method_hash text collate "C" not null,
  scope text collate "C" not null,
  state text collate "C" not null,
  started_at text collate "C" not null,
  ended_at text collate "C",
  words text collate "C" not null,
  constraint recomputations_method_hash_fkey FOREIGN KEY (method_hash) REFERENCES methods(sha256),
  constraint recomputations_pkey PRIMARY KEY (id),
  constraint recomputations_state_check CHECK ((state = ANY (ARRAY['running'::text, 'paused'::text, 'finished'::text, 'adopted'::text, 'discarded'::text, 'failed'::text])))
);

create table recomputed (
  run_id text collate "C" not null,
  trial_id text collate "C" not null,
  trial_revision bigint not null,
  session_revision bigint not null,
  basis bigint not null,
  before_id text collate "C",
  before_verdict text collate "C",
  result_id text collate "C",
  verdict text collate "C",
  code text collate "C",
  words text collate "C",
  constraint recomputed_before_id_fkey FOREIGN KEY (before_id) REFERENCES results(id),
  constraint recomputed_check CHECK (((result_id IS NULL) = (code IS NOT NULL))),
  constraint recomputed_check1 CHECK (((before_id IS NULL) = (before_verdict IS NULL))),
  constraint recomputed_check2 CHECK (((result_id IS NULL) = (verdict IS NULL))),
  constraint recomputed_pkey PRIMARY KEY (run_id, trial_id),
  constraint recomputed_result_id_fkey FOREIGN KEY (result_id) REFERENCES results(id),
  constraint recomputed_run_id_fkey FOREIGN KEY (run_id) REFERENCES recomputations(id),
  constraint recomputed_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trials(id)
);

create table recordings (
  sha256 text collate "C" not null,
  file_name text collate "C" not null,
  byte_count bigint not null,
  media_type text collate "C" not null,
  format_id text collate "C" not null,
  sample_rate double precision not null,
  sample_count bigint not null,
  imported_at text collate "C" not null,
  native_sha256 text collate "C",
  constraint recordings_pkey PRIMARY KEY (sha256),
  constraint recordings_sha256_check CHECK ((length(sha256) = 64))
);

create table results (
  id text collate "C" not null,
  sequence bigint not null,
  trial_id text collate "C" not null,
  method_hash text collate "C" not null,
  recording_hash text collate "C",
  application text collate "C" not null,
  versions text collate "C" not null,
  document text collate "C" not null,
  verdict text collate "C" not null,
  computed_at text collate "C" not null,
  run_id text collate "C",
  constraint results_method_hash_fkey FOREIGN KEY (method_hash) REFERENCES methods(sha256),
  constraint results_pkey PRIMARY KEY (id),
  constraint results_recording_hash_fkey FOREIGN KEY (recording_hash) REFERENCES recordings(sha256),
  constraint results_run_id_fkey FOREIGN KEY (run_id) REFERENCES recomputations(id),
  constraint results_sequence_fkey FOREIGN KEY (sequence) REFERENCES audit(sequence),
  constraint results_sequence_key UNIQUE (sequence),
  constraint results_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trials(id),
  constraint results_verdict_check CHECK ((verdict = ANY (ARRAY['counts'::text, 'look-again'::text, 'repeat'::text])))
);

create table revisions (
  subject_kind text collate "C" not null,
  subject_id text collate "C" not null,
  number bigint not null,
  document text collate "C" not null,
  salt text collate "C" not null,
  reason text collate "C" not null,
  by text collate "C" not null,
  role text collate "C",
  station text collate "C" not null,
  at text collate "C" not null,
  constraint revisions_pkey PRIMARY KEY (subject_kind, subject_id, number)
);

create table rig_checks (
  id text collate "C" not null,
  rig_id text collate "C" not null,
  sequence bigint not null,
  at text collate "C" not null,
  by text collate "C" not null,
  role text collate "C",
  station text collate "C" not null,
  document text collate "C" not null,
  result text collate "C" not null,
  verdict text collate "C" not null,
  note text collate "C" not null,
  constraint rig_checks_pkey PRIMARY KEY (id),
  constraint rig_checks_rig_id_fkey FOREIGN KEY (rig_id) REFERENCES rigs(id),
  constraint rig_checks_sequence_key UNIQUE (sequence),
  constraint rig_checks_verdict_check CHECK ((verdict = ANY (ARRAY['passes'::text, 'look'::text, 'fails'::text, 'incomplete'::text])))
);

create table rig_corrections (
  id text collate "C" not null,
  rig_id text collate "C" not null,
  check_id text collate "C",
  sequence bigint not null,
  at text collate "C" not null,
  by text collate "C" not null,
  role text collate "C",
  station text collate "C" not null,
  plates text collate "C" not null,
  reason text collate "C" not null,
  constraint rig_corrections_check_id_fkey FOREIGN KEY (check_id) REFERENCES rig_checks(id),
  constraint rig_corrections_pkey PRIMARY KEY (id),
  constraint rig_corrections_rig_id_fkey FOREIGN KEY (rig_id) REFERENCES rigs(id),
  constraint rig_corrections_sequence_key UNIQUE (sequence)
);

create table rigs (
  id text collate "C" not null,
  revision bigint not null,
  name text collate "C" not null,
  letter text collate "C" not null,
  shape text collate "C" not null,
  sources text collate "C" not null,
  notes text collate "C" not null,
  active integer not null,
  constraint rigs_active_check CHECK ((active = ANY (ARRAY[0, 1]))),
  constraint rigs_name_key UNIQUE (name),
  constraint rigs_pkey PRIMARY KEY (id)
);

create table schema_migrations (
  number integer not null,
  name text not null,
  applied_at text not null,
  application text not null,
  constraint schema_migrations_pkey PRIMARY KEY (number)
);

create table sessions (
  id text collate "C" not null,
  revision bigint not null,
  person_id text collate "C" not null,
  protocol_id text collate "C" not null,
  protocol_version integer not null,
  started_at text collate "C" not null,
  ended_at text collate "C",
  rig text collate "C",
  body_weight_value double precision,
  body_weight_from text collate "C",
  body_weight_worn text collate "C",
  gravity double precision not null,
  setup text collate "C" not null,
  notes text collate "C" not null,
  results_only integer not null,
  protocol_hash text collate "C",
  constraint sessions_check CHECK (((body_weight_value IS NULL) = (body_weight_from IS NULL))),
  constraint sessions_person_id_fkey FOREIGN KEY (person_id) REFERENCES people(id),
  constraint sessions_pkey PRIMARY KEY (id),
  constraint sessions_protocol_hash_fkey FOREIGN KEY (protocol_hash) REFERENCES protocol_versions(sha256),
  constraint sessions_results_only_check CHECK ((results_only = ANY (ARRAY[0, 1])))
);

create table settings (
  key text collate "C" not null,
  revision bigint not null,
  document text collate "C" not null,
  constraint settings_pkey PRIMARY KEY (key)
);

create table sources (
  id text collate "C" not null,
  revision bigint not null,
  name text collate "C" not null,
  description text collate "C" not null,
  active integer not null,
  constraint sources_active_check CHECK ((active = ANY (ARRAY[0, 1]))),
  constraint sources_name_key UNIQUE (name),
  constraint sources_pkey PRIMARY KEY (id)
);

create table squad_members (
  squad_id text collate "C" not null,
  person_id text collate "C" not null,
  constraint squad_members_person_id_fkey FOREIGN KEY (person_id) REFERENCES people(id),
  constraint squad_members_pkey PRIMARY KEY (squad_id, person_id),
  constraint squad_members_squad_id_fkey FOREIGN KEY (squad_id) REFERENCES squads(id)
);

create table squads (
  id text collate "C" not null,
  revision bigint not null,
  name text collate "C" not null,
  notes text collate "C" not null,
  active integer not null,
  constraint squads_active_check CHECK ((active = ANY (ARRAY[0, 1]))),
  constraint squads_name_key UNIQUE (name),
  constraint squads_pkey PRIMARY KEY (id)
);

create table trial_origins (
  id text collate "C" not null,
  revision bigint not null,
  trial_id text collate "C" not null,
  capture_id text collate "C" not null,
  entry_id text collate "C",
  span_start double precision not null,
  span_end double precision not null,
  ended_at text collate "C" not null,
  facts text collate "C" not null,
  constraint trial_origins_capture_id_fkey FOREIGN KEY (capture_id) REFERENCES captures(id),
  constraint trial_origins_capture_id_span_start_key UNIQUE (capture_id, span_start),
  constraint trial_origins_entry_id_fkey FOREIGN KEY (entry_id) REFERENCES day_entries(id),
  constraint trial_origins_pkey PRIMARY KEY (id),
  constraint trial_origins_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trials(id),
  constraint trial_origins_trial_id_key UNIQUE (trial_id)
);

create table trials (
  id text collate "C" not null,
  revision bigint not null,
  session_id text collate "C" not null,
  position integer not null,
  effort text collate "C" not null,
  recording_hash text collate "C",
  recording_label text collate "C",
  reading text collate "C",
  force_selection text collate "C",
  span_start double precision,
  span_end double precision,
  cue double precision,
  constraint trials_check CHECK (((span_start IS NULL) = (span_end IS NULL))),
  constraint trials_effort_check CHECK ((effort = ANY (ARRAY['maximal'::text, 'submaximal'::text, 'familiarisation'::text]))),
  constraint trials_pkey PRIMARY KEY (id),
  constraint trials_recording_hash_fkey FOREIGN KEY (recording_hash) REFERENCES recordings(sha256),
  constraint trials_session_id_fkey FOREIGN KEY (session_id) REFERENCES sessions(id),
  constraint trials_session_id_position_key UNIQUE (session_id, "position")
);

create table videos (
  id text collate "C" not null,
  revision bigint not null,
  rig_id text collate "C" not null,
  person_id text collate "C" not null,
  entry_id text collate "C",
  trial_id text collate "C",
  device text collate "C" not null,
  state text collate "C" not null,
  filmed_at text collate "C" not null,
  media_type text collate "C" not null,
  sha256 text collate "C",
  byte_count bigint not null,
  facts text collate "C" not null,
  nudge double precision not null,
  dropped_at text collate "C",
  constraint videos_check CHECK (((state = 'dropped'::text) = (dropped_at IS NOT NULL))),
  constraint videos_entry_id_fkey FOREIGN KEY (entry_id) REFERENCES day_entries(id),
  constraint videos_person_id_fkey FOREIGN KEY (person_id) REFERENCES people(id),
  constraint videos_pkey PRIMARY KEY (id),
  constraint videos_rig_id_fkey FOREIGN KEY (rig_id) REFERENCES rigs(id),
  constraint videos_state_check CHECK ((state = ANY (ARRAY['receiving'::text, 'stored'::text, 'dropped'::text, 'unreadable'::text]))),
  constraint videos_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trials(id)
);

CREATE INDEX athlete_notes_by_kind ON public.athlete_notes USING btree (kind, from_day, id);

CREATE INDEX athlete_notes_by_person ON public.athlete_notes USING btree (person_id, from_day, id);

CREATE INDEX audit_by_subject ON public.audit USING btree (subject_kind, subject_id, sequence);

CREATE INDEX captures_by_start ON public.captures USING btree (started_at, id);

CREATE INDEX day_entries_by_day ON public.day_entries USING btree (day_id, "position", id);

CREATE INDEX day_entries_by_person ON public.day_entries USING btree (person_id, id);

CREATE INDEX days_by_date ON public.days USING btree (date, id);

CREATE INDEX decisions_by_trial ON public.decisions USING btree (trial_id, sequence);

CREATE INDEX gates_by_person ON public.gates USING btree (person_id, id);

CREATE INDEX handed_out_by_session ON public.handed_out USING btree (session_id, metric, kind, reference);

CREATE INDEX import_templates_by_header ON public.import_templates USING btree (header_signature);

CREATE INDEX received_imports_by_file ON public.received_imports USING btree (file_sha256);

CREATE INDEX received_sessions_by_import ON public.received_sessions USING btree (import_id);

CREATE INDEX received_values_by_import ON public.received_values USING btree (import_id, id);

CREATE INDEX received_values_by_origin ON public.received_values USING btree (origin);

CREATE INDEX received_values_by_session ON public.received_values USING btree (session_id, metric);

CREATE INDEX recomputations_by_state ON public.recomputations USING btree (state, started_at);

CREATE INDEX results_by_trial ON public.results USING btree (trial_id, method_hash, sequence);

CREATE INDEX results_in_force ON public.results USING btree (trial_id, sequence, run_id, verdict, method_hash, id);

CREATE INDEX rig_checks_by_rig ON public.rig_checks USING btree (rig_id, sequence);

CREATE INDEX rig_corrections_by_rig ON public.rig_corrections USING btree (rig_id, sequence);

CREATE INDEX sessions_by_person ON public.sessions USING btree (person_id, started_at);

CREATE INDEX sessions_by_protocol ON public.sessions USING btree (protocol_hash, started_at);

CREATE INDEX sessions_by_start ON public.sessions USING btree (started_at, id);

CREATE INDEX squad_members_by_person ON public.squad_members USING btree (person_id);

CREATE INDEX trial_origins_by_entry ON public.trial_origins USING btree (entry_id, ended_at);

CREATE INDEX trials_by_recording ON public.trials USING btree (recording_hash);

CREATE INDEX videos_by_file ON public.videos USING btree (sha256);

CREATE INDEX videos_by_state ON public.videos USING btree (state, filmed_at, id);

CREATE INDEX videos_by_trial ON public.videos USING btree (trial_id, id);

CREATE OR REPLACE FUNCTION public.refuse_change()
 RETURNS trigger
 LANGUAGE plpgsql
AS $function$
      begin raise exception 'append-only' using errcode = 'restrict_violation'; end $function$
;

CREATE TRIGGER audit_no_change BEFORE DELETE OR UPDATE ON public.audit FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER audit_no_truncate BEFORE TRUNCATE ON public.audit FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER decisions_no_change BEFORE DELETE OR UPDATE ON public.decisions FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER decisions_no_truncate BEFORE TRUNCATE ON public.decisions FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER handed_out_no_change BEFORE DELETE OR UPDATE ON public.handed_out FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER handed_out_no_truncate BEFORE TRUNCATE ON public.handed_out FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER methods_no_change BEFORE DELETE OR UPDATE ON public.methods FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER methods_no_truncate BEFORE TRUNCATE ON public.methods FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER metric_values_no_change BEFORE DELETE OR UPDATE ON public.metric_values FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER metric_values_no_truncate BEFORE TRUNCATE ON public.metric_values FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER protocol_versions_no_change BEFORE DELETE OR UPDATE ON public.protocol_versions FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER protocol_versions_no_truncate BEFORE TRUNCATE ON public.protocol_versions FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER received_sessions_no_change BEFORE DELETE OR UPDATE ON public.received_sessions FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER received_sessions_no_truncate BEFORE TRUNCATE ON public.received_sessions FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER received_values_no_change BEFORE DELETE OR UPDATE ON public.received_values FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER received_values_no_truncate BEFORE TRUNCATE ON public.received_values FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER results_no_change BEFORE DELETE OR UPDATE ON public.results FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER results_no_truncate BEFORE TRUNCATE ON public.results FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER revisions_no_change BEFORE DELETE OR UPDATE ON public.revisions FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER revisions_no_truncate BEFORE TRUNCATE ON public.revisions FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER rig_checks_no_change BEFORE DELETE OR UPDATE ON public.rig_checks FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER rig_checks_no_truncate BEFORE TRUNCATE ON public.rig_checks FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER rig_corrections_no_change BEFORE DELETE OR UPDATE ON public.rig_corrections FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER rig_corrections_no_truncate BEFORE TRUNCATE ON public.rig_corrections FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
