// Rigs and test days.

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
