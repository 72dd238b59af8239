import type { ReportQuery, SessionView } from '@sthene/contract';
import { protocolRegistry, type TrialResult } from '@sthene/core';
import type { CheckFacts, SessionInput, TrialFacts } from '@sthene/report';
import type { Session, Trial, TrialView } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { nameOf } from '../people.ts';
import { documentOf } from '../protocols.ts';
import { headlineOf, sessionView, stateOf } from '../sessions.ts';
import { sessionUncertainty } from '../uncertainty/of-session.ts';
import { methodFacts } from './method-facts.ts';
import { missing } from './refusals.ts';
import { checkOfSession } from './rig-check.ts';

/** What the log of a session is made of: every trial with what the checks found and what people decided. */
export async function sessionInput(lab: OpenLab, asked: ReportQuery): Promise<SessionInput> {
  if (!asked.session) throw missing('session', '"session", the id of a session');
  const view = await sessionView(lab, asked.session);
  const session = await lab.store.sessions.get(asked.session);
  const person = session && (await lab.store.people.get(session.person));
  if (session === undefined || person === undefined) throw problems.notFound('session');
  const trials = await Promise.all((await lab.store.trials.ofSession(session.id)).map((one) => trialFacts(lab, one)));
  const hashes = [...new Set(trials.flatMap(({ method }) => method ?? []))];
  const document = view.ranBy === undefined ? undefined : await documentOf(lab, view.ranBy.sha256);
  return {
    person: { name: nameOf(person), code: person.code, birthDate: person.birthDate },
    test: session.protocol.id,
    startedAt: session.startedAt,
    summary: view.peakForce,
    uncertainty: await ofHeadline(lab, view),
    headline: view.headline,
    trials: trials.map(({ facts }) => facts),
    setup: session.setup,
    fields: document?.setupFields ?? protocolRegistry.get(session.protocol.id)?.setupFields ?? [],
    bodyWeight: weightOf(
      session,
      trials.map(({ result }) => result),
    ),
    gravity: session.gravity,
    rig: await rigName(lab, session),
    rigCheck: await checkOfSession(lab, session),
    notes: session.notes,
    methods: await Promise.all(hashes.map((sha256) => methodFacts(lab, sha256))),
    protocol: view.ranBy && { ...view.ranBy, document },
  };
}

function ofHeadline(lab: OpenLab, { id, peakForce, headline }: SessionView): Promise<SessionInput['uncertainty']> {
  if (peakForce !== undefined) return sessionUncertainty(lab, id, 'peak_force', peakForce);
  if (headline === undefined) return Promise.resolve(undefined);
  return sessionUncertainty(lab, id, headline.metric, headline);
}

export async function rigName({ store }: OpenLab, { rig }: Pick<Session, 'rig'>): Promise<string | undefined> {
  return rig === undefined ? undefined : ((await store.rigs.get(rig))?.name ?? rig);
}

/** Of the session where it keeps one, else of the first effort that has one. */
function weightOf({ bodyWeight }: Session, results: readonly (TrialResult | undefined)[]): SessionInput['bodyWeight'] {
  if (bodyWeight !== undefined) return bodyWeight;
  const found = results.find((one) => one?.bodyWeight.ok)?.bodyWeight;
  return found?.ok && found.value.unit === 'N' ? found.value : undefined;
}

interface Told {
  readonly facts: TrialFacts;
  readonly method: string | undefined;
  readonly result: TrialResult | undefined;
}

async function trialFacts(lab: OpenLab, trial: Trial): Promise<Told> {
  const view = (await lab.store.trials.view(trial.id)) as TrialView;
  const result = view.result?.document;
  const peak = result?.metrics.peak_force;
  const rate = result?.metrics.rfd_0_200;
  const facts: TrialFacts = {
    order: trial.position,
    effort: trial.effort,
    state: view.standing === 'not-analysed' ? 'not-analysed' : stateOf(view),
    verdict: result?.verdict,
    peakForce: peak && 'value' in peak ? peak.value : undefined,
    rate200: rate && 'value' in rate ? rate.value : undefined,
    unit: peak && 'value' in peak ? peak.unit : 'N',
    ...headlineOf(result),
    reason: result?.reason,
    checks: result === undefined ? [] : checksOf(result),
    decisions: await Promise.all(
      view.decisions.map(async (one) => ({
        kind: one.kind,
        reason: one.kind === 'note' ? one.payload.text : one.reason,
        by: await lab.nameOf(one.by),
        at: one.at,
      })),
    ),
    recording: view.recording && {
      name: view.recording.fileName,
      sha256: view.recording.sha256,
      sampleRate: view.recording.sampleRate,
    },
  };
  return { facts, method: result?.method.sha256, result };
}

/** Checks that did not pass, failed ones first. */
const checksOf = ({ checks }: TrialResult): CheckFacts[] =>
  (['fail', 'warn'] as const).flatMap((status) =>
    Object.entries(checks).flatMap(([id, check]) =>
      check.status === status ? [{ id, status, value: check.value, limit: check.limit, unit: check.unit }] : [],
    ),
  );
