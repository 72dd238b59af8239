import type { TrialUncertainty } from '@sthene/contract';
import {
  type AnalysisRequest,
  contextsOf,
  foundJumps,
  jumpMetricRegistry,
  jumpUncertainties,
  type KnownOfTrial,
  type Measured,
  metricRegistry,
  type Outcome,
  sourcesOf,
  sourcesOfJump,
  type TrialResult,
  type Uncertainty,
  type UncertaintySources,
  uncertainties,
} from '@sthene/core';
import type { TrialView } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import type { OriginFacts } from '../../live/rig/keep-trial.ts';
import { problems } from '../../server/problem-error.ts';
import { requestOf } from '../analyse-trial.ts';
import { forcesOfTrial, type ReadForces } from '../forces-of-trial.ts';
import { liveFactsOf } from '../live-facts.ts';
import { correctionOn, rigCheckOf } from './rig-check.ts';

/** Values recomputed to tell their uncertainty must be the stored ones to this share, or nothing is said of them. */
const sameWithin = 1e-9;

interface Found {
  readonly sources: UncertaintySources;
  readonly values: Readonly<Record<string, Outcome<Uncertainty>>>;
  /** Whether body weight was read from the effort's own recording, as that of a jump is: another effort has another one. */
  readonly weighedItself: boolean;
}

/** The uncertainty of every value of a trial's result, with what it is made of. */
export async function trialUncertainty(lab: OpenLab, id: string): Promise<TrialUncertainty> {
  const view = await lab.store.trials.view(id);
  if (view?.result === undefined || view.recording === undefined) throw problems.notFound('trial');
  const ids = Object.keys(view.result.document.metrics);
  const found = await uncertaintiesOf(lab, view, ids);
  if (found === undefined) return { metrics: {}, rigChecked: false };
  const { sources, values } = found;
  return {
    metrics: Object.fromEntries(
      Object.entries(values).map(([metric, one]) => [metric, one.ok ? shown(one.value) : { reason: one.reason }]),
    ),
    rigChecked: sources.rig !== undefined,
    ...(sources.weight === undefined ? {} : { weight: { seconds: sources.weight.seconds, of: sources.weight.of } }),
  };
}

/**
 * Uncertainties of some metrics of a stored trial, from its recording.
 *
 * @param read how its forces are read; by default as for its curve
 * @returns undefined where the result has no effort; a value that is not the stored one any more is left out
 */
export async function uncertaintiesOf(
  lab: OpenLab,
  view: TrialView,
  ids: readonly string[],
  read: (...given: Parameters<typeof forcesOfTrial>) => Promise<ReadForces> = forcesOfTrial,
): Promise<Found | undefined> {
  const { trial, session, result, effective } = view;
  if (result === undefined) return undefined;
  const method = (await lab.store.methods.get(result.method))?.document;
  if (method === undefined) throw problems.notFound('method');
  const { forces } = await read(lab, trial, session);
  const live = await liveFactsOf(lab, trial.id);
  const request = await requestOf(lab, forces, trial, session, method, effective, live, { keepsMethods: false });
  const known = {
    rig: (await rigCheckOf(lab, session, correctionOn(live)))?.rig,
    weighing: live?.weighing,
    synchronisation: synchronisationOf(live),
  };
  const stored = result.document.metrics;
  return request.protocol.jump === undefined
    ? ofEffort(request, stored, ids, known)
    : ofJump(request, stored, ids, known);
}

function ofEffort(
  request: AnalysisRequest,
  stored: TrialResult['metrics'],
  ids: readonly string[],
  known: KnownOfTrial,
): Found | undefined {
  const { contexts } = contextsOf(request);
  const context = contexts.ok ? contexts.value[0] : undefined;
  if (context === undefined) return undefined;
  const metrics = stillTheSame(metricRegistry, ids, context, stored);
  const sources = sourcesOf(context, known);
  return { sources, values: uncertainties(context, metrics, sources), weighedItself: false };
}

function ofJump(
  request: AnalysisRequest,
  stored: TrialResult['metrics'],
  ids: readonly string[],
  known: KnownOfTrial,
): Found | undefined {
  const { jumps } = foundJumps(request);
  const judged = jumps.ok ? jumps.value[0] : undefined;
  if (judged === undefined) return undefined;
  const metrics = stillTheSame(jumpMetricRegistry, ids, judged.jump, stored);
  const sources = sourcesOfJump(judged.jump, known);
  const weight = judged.jump.bodyWeight;
  return {
    sources,
    values: jumpUncertainties(judged, metrics, sources),
    weighedItself: weight.ok && weight.value.from === 'baseline',
  };
}

/** Those of some metrics that this program computes as they were stored. */
function stillTheSame<C, D extends { readonly id: string; readonly compute: (context: C) => Measured }>(
  registry: { readonly get: (id: string) => D | undefined },
  ids: readonly string[],
  context: C,
  stored: TrialResult['metrics'],
): D[] {
  return ids.flatMap((id): D[] => {
    const definition = registry.get(id);
    const then = stored[id];
    if (definition === undefined || then === undefined) return [];
    const now = definition.compute(context);
    if (!('value' in now) || !('value' in then)) return [];
    return Math.abs(now.value - then.value) <= sameWithin * Math.abs(then.value) ? [definition] : [];
  });
}

/** Kept with a live trial; of a file nobody knows how its plates were kept in step. */
const synchronisationOf = (live: OriginFacts | undefined): number | undefined => live?.synchronisation;

/** As it is sent: lists a reader may keep. */
export const shown = ({ parts, unknown, onsetTiming, flightTiming, ...rest }: Uncertainty) => ({
  ...rest,
  parts: parts.map((part) => ({ ...part })),
  unknown: unknown.map((part) => ({ ...part })),
  ...(onsetTiming === undefined ? {} : { onsetTiming: { ...onsetTiming } }),
  ...(flightTiming === undefined ? {} : { flightTiming: { ...flightTiming } }),
});
