import { type ClosedTrial, type Correction, corrections, jumpCorrections } from '@sthene/capture';
import type { ComparedValue, LiveTurn, LiveVerdict } from '@sthene/contract';
import { checkFacts, metricFacts, type Protocol, reasons as reasonWords } from '@sthene/core';
import { type Telling, told, toldLevel } from '../telling.ts';
import type { KeptTrial } from './keep-trial.ts';
import { shownValues } from './shown-values.ts';
import type { History } from './turn-plan.ts';

/** What a screen says of each thing the engine holds against an effort. */
const engineWords: Readonly<Record<ClosedTrial['reasons'][number], string>> = {
  aborted: 'The effort was stopped by hand.',
  'pain-stop': 'The effort was stopped for pain.',
  'gap-in-pull': 'Samples are missing in the effort.',
  'signal-lost': 'The plates went silent in the effort.',
  'too-long': 'The effort did not end in time.',
  'pulled-without-cue': 'The effort began without a cue.',
  'cue-time-unknown': 'No device said when the cue sounded.',
  'cell-at-limit': 'A cell or a signal of a plate reached its limit.',
  'identity-unsure': 'Nobody could say for sure whose effort this is.',
  'not-still': 'Nobody stood still after the landing.',
};

/** Where a trial is, or will be in a moment, in the store. */
export type AnnouncedTrial = Pick<KeptTrial, 'trial' | 'session'> & Partial<Pick<KeptTrial, 'recording'>>;

/** The verdict on a trial, in words and against the athlete's own history. */
export function verdictMessageOf(input: {
  readonly rig: string;
  readonly turn: LiveTurn;
  readonly protocol: Protocol;
  readonly closed: ClosedTrial;
  readonly kept: AnnouncedTrial;
  readonly history: History;
  readonly telling: Telling;
  readonly correction?: Correction | undefined;
  readonly tookMs: number;
}): LiveVerdict {
  const { closed, kept, turn } = input;
  const { result } = closed;
  return {
    rig: input.rig,
    turn: turn.id,
    trial: kept.trial,
    session: kept.session,
    person: turn.person,
    effort: turn.effort,
    verdict: closed.verdict,
    reasons: findings(closed),
    say: input.correction?.words ?? '',
    forces: input.telling.forces,
    ...closenessOf(closed, input.telling),
    values: valuesOf(closed, input.protocol, input.history, input.telling),
    evidence: {
      ...(kept.recording === undefined ? {} : { recording: kept.recording }),
      from: closed.span.start,
      span: { start: 0, end: closed.span.end - closed.span.start },
      ...(result.onset.ok ? { onset: result.onset.value.index } : {}),
      ...(result.events === undefined ? {} : { peak: result.events.peak.index, end: result.events.end }),
      ...(result.jump === undefined ? {} : { takeOff: result.jump.takeOff, touchdown: result.jump.touchdown }),
    },
    tookMs: Math.round(input.tookMs),
  };
}

function findings(closed: ClosedTrial): LiveVerdict['reasons'] {
  const { result } = closed;
  const held = closed.reasons.map((reason) => ({
    check: reason,
    // A landing that was not held is said; what it does to the numbers is for the checks.
    status: reason === 'not-still' ? ('warn' as const) : ('fail' as const),
    words: engineWords[reason] ?? reason,
  }));
  const none =
    result.reason === undefined
      ? []
      : [{ check: result.reason, status: 'fail' as const, words: reasonWords[result.reason].means }];
  const onset =
    result.reason !== undefined || result.onset.ok
      ? []
      : [{ check: result.onset.reason, status: 'warn' as const, words: reasonWords[result.onset.reason].means }];
  const checks = (['fail', 'warn'] as const).flatMap((status) =>
    Object.entries(result.checks)
      .filter(([, check]) => check.status === status)
      .sort(([a], [b]) => place(a) - place(b))
      .map(([check]) => {
        return { check, status, words: `${checkFacts.get(check)?.finding ?? check}.` };
      }),
  );
  return [...held, ...none, ...onset, ...checks];
}

/** Worst first, in the order in which the athlete would be told. */
const place = (check: string): number =>
  [...Object.keys(corrections), ...Object.keys(jumpCorrections), check].indexOf(check);

/** How close a submaximal effort came to its band. */
function closenessOf({ target, closeness }: ClosedTrial, telling: Telling): Pick<LiveVerdict, 'closeness'> {
  if (target === undefined || closeness === undefined || telling.forces === 'hidden') return {};
  const [low, high, reached] = [target.low, target.high, closeness.reached].map((force) => told(force, telling));
  if (low === undefined || high === undefined || reached === undefined) return {};
  const { deviation, where } = closeness;
  return { closeness: { low, high, reached, deviation, where } };
}

function valuesOf(closed: ClosedTrial, protocol: Protocol, history: History, telling: Telling): ComparedValue[] {
  return shownValues(protocol, closed.result).flatMap(({ metric, value: measured, unit }) => {
    const force = metric === 'peak_force';
    const value = force ? toldLevel(measured, telling) : measured;
    if (value === undefined) return [];
    const earlier = earlierOf(history, metric, force ? telling : undefined);
    const best = Math.max(...earlier);
    const maximal = closed.effort === 'maximal' && closed.verdict === 'counts';
    return [
      {
        metric,
        words: metricFacts.get(metric)?.title ?? metric,
        value,
        unit,
        ...(earlier.length === 0
          ? {}
          : {
              history: { n: earlier.length, best, mean: earlier.reduce((sum, one) => sum + one, 0) / earlier.length },
            }),
        best: bests.has(metric) && maximal && earlier.length > 0 && value > best,
      },
    ];
  });
}

/** More of these is a best. */
const bests: ReadonlySet<string> = new Set(['peak_force', 'jump_height', 'hop_height_best_five']);

/** Earlier counting values of a metric, as they may be told. */
function earlierOf({ peaks, beside }: History, metric: string, telling: Telling | undefined): number[] {
  if (telling !== undefined) return peaks.flatMap((peak) => toldLevel(peak.value, telling) ?? []);
  return [...(beside?.[metric] ?? [])];
}
