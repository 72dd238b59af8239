import { firstSchema } from './0001-first-schema.ts';
import { live } from './0002-live.ts';
import { videos } from './0003-videos.ts';
import { protocols } from './0004-protocols.ts';
import { athleteNotes } from './0005-athlete-notes.ts';
import { received } from './0006-received.ts';
import { recomputations } from './0007-recomputations.ts';
import { handedOut } from './0008-handed-out.ts';
import { rigChecks } from './0009-rig-checks.ts';
import { metricValuesByResult } from './0010-metric-values-by-result.ts';
import type { Migration } from './migration.ts';

/** Every migration, in order of its number. */
export const migrations: readonly Migration[] = [
  firstSchema,
  live,
  videos,
  protocols,
  athleteNotes,
  received,
  recomputations,
  handedOut,
  rigChecks,
  metricValuesByResult,
];
