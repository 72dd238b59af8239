import {
  type ClosedTrial,
  cellsAtLimit,
  closenessOf,
  forcesOfSpan,
  type Packet,
  type RecordedSpan,
  recordingFrom,
  targetOf,
  worstVerdict,
} from '@sthene/capture';
import type { PlannedEffort } from '@sthene/contract';
import { analyse, reasons as lacks, type TrialResult, type UtcInstant } from '@sthene/core';
import { stationActor } from '../../labs/open-lab.ts';
import { ProblemError } from '../../server/problem-error.ts';
import { jumpSetupOf } from '../../work/analyse-trial.ts';
import type { StationClock } from '../clock.ts';
import type { LoadedEntry } from '../day/loaded.ts';
import { type Recipes, rulesOf } from '../day/plan.ts';
import { isWarmUp } from '../day/remaining.ts';
import type { LiveLab } from '../live-lab.ts';
import { bestOf } from '../turn.ts';
import { endSampleOf, type LiveTrial } from './keep-trial.ts';
import { forcesAndOthers } from './spans.ts';
import type { History } from './turn-plan.ts';

/** Whose file it is, and what was due. */
export interface FileTurn {
  readonly entry: LoadedEntry;
  readonly kind: PlannedEffort['kind'];
  readonly history: History;
}

/** A whole file as one effort: its maker zeroed and cued it, so nothing is taken off and no cue is known. */
export function fileTrial(
  packets: readonly Packet[],
  turn: FileTurn,
  about: Recipes & { readonly number: number; readonly gravity: number; readonly clock: StationClock },
): Omit<LiveTrial, 'capture' | 'rig'> {
  const header = packets.find((one) => one.kind === 'header');
  const end = packets.reduce((most, one) => Math.max(most, endOf(one)), 0);
  const span = { start: 0, end };
  const read = recordingFrom(packets, span);
  if (!read.ok || header?.kind !== 'header') throw refused(read.ok ? 'no-force-channel' : read.reason);
  const recording = read.value;
  const recorded: RecordedSpan = {
    sampleRate: recording.sampleRate,
    ...forcesAndOthers(
      header.channels,
      ({ axis }) => axis === 'z' || axis === 'force',
      (index) => recording.channels[index]?.raw as Float64Array,
    ),
  };
  const { protocol, person } = turn.entry;
  const forces = forcesOfSpan(recorded, {}, protocol.parameters?.unit ?? 'N');
  if (!forces.ok) throw refused(forces.reason);
  const { method, jumpMethod, gravity } = about;
  const jumpSetup = protocol.jump === undefined ? undefined : jumpSetupOf(turn.entry.entry.setup);
  const [result] = analyse({
    forces: forces.value,
    protocol,
    method,
    ...(jumpMethod === undefined ? {} : { jumpMethod }),
    ...(jumpSetup === undefined ? {} : { jumpSetup }),
    gravity,
    efforts: 'largest',
  }).trials;
  if (result === undefined) throw new Error('an analysis of the largest effort gave no trial');
  const reasons = cellsAtLimit(recorded) ? (['cell-at-limit'] as const) : [];
  const closed: ClosedTrial = {
    turn: 0,
    person: person.id,
    trial: about.number,
    effort: turn.kind === 'maximal' ? 'maximal' : 'submaximal',
    span,
    sampleRate: recording.sampleRate,
    zeros: {},
    ended: 'released',
    result,
    reasons,
    ...(jumpSetup === undefined ? {} : { jumpSetup }),
    verdict: worstVerdict(result.verdict, reasons),
    ...aimOf(turn, result),
  };
  const startedAt = recording.recordedAt ?? about.clock.wall();
  const seconds = endSampleOf(closed) / recording.sampleRate;
  return {
    closed,
    recorded,
    startedAt,
    endedAt: new Date(Date.parse(startedAt) + 1000 * seconds).toISOString() as UtcInstant,
    person: person.id,
    protocol,
    document: turn.entry.plan.document,
    method,
    ...(jumpMethod === undefined ? {} : { jumpMethod }),
    setup: turn.entry.entry.setup,
  };
}

/** What a submaximal effort aimed at, from the weight in the file, and how close it came. */
function aimOf({ entry, kind, history }: FileTurn, result: TrialResult): Pick<ClosedTrial, 'target' | 'closeness'> {
  if (kind === 'maximal' || !result.bodyWeight.ok) return {};
  const effort = rulesOf(entry.plan).warmUp[entry.done.filter(isWarmUp).length];
  if (effort === undefined) return {};
  const weight = result.bodyWeight.value.value;
  const target = targetOf(bestOf({ history }), effort, weight);
  const closeness = closenessOf(result, target, weight);
  return { target, ...(closeness === undefined ? {} : { closeness }) };
}

const endOf = (packet: Packet): number =>
  packet.kind === 'samples' || packet.kind === 'gap' ? packet.first + packet.count : 0;

const refused = (reason: keyof typeof lacks) => new ProblemError(422, reason, lacks[reason].means, lacks[reason].next);

/** The file's capture is whole. */
export async function endCapture({ lab, ports }: LiveLab, capture: string, packets: readonly Packet[]): Promise<void> {
  const count = (kind: 'samples' | 'gap') => packets.reduce((sum, one) => sum + (one.kind === kind ? one.count : 0), 0);
  await lab.store.captures.change(
    capture,
    { state: 'closed', endedAt: ports.clock.wall(), samples: count('samples'), missing: count('gap') },
    stationActor,
  );
}
