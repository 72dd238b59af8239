import {
  type ClosedTrial,
  calibrationFact,
  platformsOfChannels,
  type RecordedSpan,
  type RememberedTrial,
  recordingOfSpan,
  type StreamChannel,
} from '@sthene/capture';
import {
  conversionFactor,
  type ForceSelection,
  type JumpMethod,
  type Method,
  methodReference,
  type Protocol,
  type ProtocolDocument,
  protocolReference,
  type Recording,
  type UtcInstant,
} from '@sthene/core';
import { formatOf } from '@sthene/formats';
import type { Actor, DayEntry, Session, Setup, TrialOrigin } from '@sthene/store';
import { type OpenLab, stationActor } from '../../labs/open-lab.ts';
import { versionsOf } from '../../work/analyse-trial.ts';
import { keepProtocol } from '../../work/protocols.ts';
import type { CueHeard } from '../cue-heard.ts';
import { effortIds } from './trial-id.ts';

/** What a live trial's origin keeps, so that it can be analysed again exactly as it was live. */
export interface OriginFacts {
  /** Rig the effort was made on. */
  readonly rig: string;
  readonly turn: number;
  readonly number: number;
  readonly ended: ClosedTrial['ended'];
  readonly reasons: readonly string[];
  /** Force channels, in the order in which they begin the recording; others may stand behind them. */
  readonly channels: readonly StreamChannel[];
  /** Zero of each channel by name, in `unit`. */
  readonly zeros: Readonly<Record<string, number>>;
  readonly unit: string;
  /** N, from the stand-still of the turn, or of the effort that `weighedBefore` names. */
  readonly bodyWeight?: number;
  /** In a battery: the test and the effort of the day whose weighing this is. */
  readonly weighedBefore?: ClosedTrial['weighedBefore'];
  /** Means of the successive seconds of that stand-still, N. */
  readonly weighing?: readonly number[];
  readonly unloaded?: { readonly before: number; readonly after: number };
  /** What the setup of a jump said as it was made. */
  readonly jumpSetup?: ClosedTrial['jumpSetup'];
  readonly cue?: number;
  /** Who gave the cue, and how well its time is known. */
  readonly cueHeard?: CueHeard;
  readonly target?: ClosedTrial['target'];
  /** Station clock at both ends of the recording, ms. */
  readonly stationTime?: { readonly start: number; readonly end: number };
  /** Scatter of the worst of the rig's clocks about its line, s; 0 where all channels come in one stream. */
  readonly synchronisation?: number;
}

export interface LiveTrial {
  readonly closed: ClosedTrial;
  /** Raw force channels over the span, and what came beside them. */
  readonly recorded: RecordedSpan;
  /** When the first sample of the span was taken, and the effort ended, by the wall clock. */
  readonly startedAt: UtcInstant;
  readonly endedAt: UtcInstant;
  readonly stationTime?: OriginFacts['stationTime'];
  readonly synchronisation?: number;
  readonly capture: string;
  readonly rig: string;
  readonly person: string;
  readonly protocol: Protocol;
  /** The protocol version the effort was made by. */
  readonly document: ProtocolDocument;
  readonly method: Method;
  /** What a jump was judged by, in place of the method. */
  readonly jumpMethod?: JumpMethod;
  readonly setup: Setup;
  readonly entry?: DayEntry;
  readonly cueHeard?: CueHeard;
}

/** Where the effort ended, in samples of its stream: a pull as its force fell, a jump as it landed, else the trial. */
export function endSampleOf({ span, result }: Pick<RememberedTrial, 'span' | 'result'>): number {
  const end = result.events?.end ?? result.jump?.touchdown;
  return end === undefined ? span.end : span.start + end;
}

export interface KeptTrial {
  readonly trial: string;
  readonly session: string;
  readonly recording: string;
  readonly origin: string;
}

/**
 * Keeps a live trial as an import would: the recording of its span as a file of its own, session, trial and result. The file
 * first, then all facts in one act; a trial of the same samples of the same capture is made only once.
 */
export async function keepTrial(lab: OpenLab, live: LiveTrial, actor: Actor): Promise<KeptTrial> {
  const { closed, protocol } = live;
  const unit = protocol.parameters?.unit ?? 'N';
  const recording = recordingOfLive(live);
  const native = formatOf('parquet');
  if (native?.write === undefined) throw new Error('the native format is not listed');
  const kept = await lab.store.recordings.add(
    {
      bytes: await native.write(recording),
      fileName: `${live.capture}-${closed.span.start}.parquet`,
      mediaType: native.mediaType,
      format: native.id,
      sampleRate: recording.sampleRate,
      sampleCount: recording.sampleCount,
    },
    actor,
  );
  await keepProtocol(lab, live.document);
  const recipe = live.jumpMethod ?? live.method;
  const { sha256 } = methodReference(recipe);
  await lab.store.methods.add(sha256, recipe, actor);
  const method = closed.result.method.sha256;
  if (method !== sha256) throw new Error('the engine judged with another method than the one that is kept');
  return lab.store.transaction(async (inside) => {
    const there = (await inside.origins.ofCapture(live.capture)).find(({ span }) => span.start === closed.span.start);
    if (there !== undefined) {
      const trial = await inside.trials.get(there.trial);
      return { trial: there.trial, session: trial?.session ?? '', recording: kept.recording.sha256, origin: there.id };
    }
    const session = await sessionFor(inside, lab, live, actor);
    const trial = await inside.trials.add(
      {
        id: effortIds(live.capture, closed.span.start).trial,
        session: session.id,
        effort: closed.effort,
        recording: kept.recording.sha256,
        forceSelection: selectForces(live.recorded.channels, closed.zeros, unit),
        ...(closed.cue === undefined ? {} : { cue: closed.cue - closed.span.start }),
      },
      actor,
    );
    await inside.results.add({ trial: trial.id, document: closed.result, versions: versionsOf(closed.result) }, actor);
    const origin = await inside.origins.add(
      {
        trial: trial.id,
        capture: live.capture,
        ...(live.entry === undefined ? {} : { entry: live.entry.id }),
        span: closed.span,
        endedAt: live.endedAt,
        facts: {
          ...factsOf(closed, live.rig, live.recorded.channels, unit),
          ...(live.cueHeard === undefined ? {} : { cueHeard: live.cueHeard }),
          ...(live.stationTime === undefined ? {} : { stationTime: live.stationTime }),
          ...(live.synchronisation === undefined ? {} : { synchronisation: live.synchronisation }),
        },
      },
      actor,
    );
    // What the engine holds against an effort is no check, so the checks alone could let it count.
    if (closed.verdict !== closed.result.verdict)
      await inside.decisions.add(
        {
          trial: trial.id,
          kind: 'exclude',
          payload: { category: closed.reasons[0] ?? 'live' },
          reason: `Held against it live: ${closed.reasons.join(', ')}.`,
        },
        actor,
      );
    return { trial: trial.id, session: session.id, recording: kept.recording.sha256, origin: origin.id };
  });
}

/** Keeps the trial's result with the mean of the empty plates after the turn. */
export async function keepReview(lab: OpenLab, origin: TrialOrigin, trial: ClosedTrial): Promise<void> {
  await lab.store.transaction(async (inside) => {
    await inside.origins.review(origin.id, { ...origin.facts, unloaded: trial.unloaded }, stationActor);
    await inside.results.add(
      { trial: origin.trial, document: trial.result, versions: versionsOf(trial.result) },
      stationActor,
    );
  });
}

/** The session an effort belongs to: the entry's, or a new one. */
async function sessionFor(
  inside: Parameters<Parameters<OpenLab['store']['transaction']>[0]>[0],
  lab: OpenLab,
  live: LiveTrial,
  actor: Actor,
): Promise<Session> {
  const { entry, closed, protocol } = live;
  const fresh = entry && (await inside.dayEntries.get(entry.id));
  const known = fresh?.session === undefined ? undefined : await inside.sessions.get(fresh.session);
  if (known !== undefined && known.person === live.person) return known;
  const session = await inside.sessions.add(
    {
      id: effortIds(live.capture, closed.span.start).session,
      person: live.person,
      protocol: { id: protocol.id, version: protocol.version, sha256: protocolReference(live.document).sha256 },
      startedAt: live.startedAt,
      rig: live.rig,
      gravity: lab.gravity,
      setup: live.setup,
      ...(closed.bodyWeight === undefined
        ? {}
        : { bodyWeight: { value: closed.bodyWeight, from: 'weighing' as const } }),
    },
    actor,
  );
  if (fresh !== undefined) await inside.dayEntries.change(fresh.id, { session: session.id }, actor);
  return session;
}

/** The recording of a live span, with what was marked in it. */
export function recordingOfLive(
  live: Pick<LiveTrial, 'closed' | 'recorded' | 'startedAt' | 'capture' | 'rig'>,
): Recording {
  const { closed, recorded } = live;
  const cue =
    closed.cue === undefined ? [] : [{ label: 'cue', time: (closed.cue - closed.span.start) / closed.sampleRate }];
  return {
    ...recordingOfSpan(recorded),
    platforms: platformsOfChannels(recorded.channels.concat(recorded.beside?.channels ?? []), closed.zeros),
    events: cue,
    recordedAt: live.startedAt,
    facts: {
      capture: live.capture,
      rig: live.rig,
      firstSample: String(closed.span.start),
      ...calibrationFact(recorded.channels.concat(recorded.beside?.channels ?? [])),
    },
  };
}

export function factsOf(
  closed: ClosedTrial,
  rig: string,
  channels: readonly StreamChannel[],
  unit: string,
): OriginFacts {
  return {
    rig,
    turn: closed.turn,
    number: closed.trial,
    ended: closed.ended,
    reasons: closed.reasons,
    channels,
    zeros: closed.zeros,
    unit,
    ...(closed.bodyWeight === undefined ? {} : { bodyWeight: closed.bodyWeight }),
    ...(closed.weighing === undefined ? {} : { weighing: closed.weighing }),
    ...(closed.weighedBefore === undefined ? {} : { weighedBefore: closed.weighedBefore }),
    ...(closed.unloaded === undefined ? {} : { unloaded: closed.unloaded }),
    ...(closed.jumpSetup === undefined ? {} : { jumpSetup: closed.jumpSetup }),
    ...(closed.cue === undefined ? {} : { cue: closed.cue }),
    ...(closed.target === undefined ? {} : { target: closed.target }),
  };
}

/** As the live analysis chooses its forces: see `forcesOfSpan`. */
function selectForces(
  channels: readonly StreamChannel[],
  zeros: Readonly<Record<string, number>>,
  unit: string,
): ForceSelection {
  return {
    inputs: channels.map(({ name, side, unit: own }, index) => ({
      from: { kind: 'channel', index },
      part: side,
      zero: (zeros[name] ?? 0) / conversionFactor(own, unit),
    })),
  };
}
