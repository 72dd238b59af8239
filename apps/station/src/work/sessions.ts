import type { SessionPage, SessionRow, SessionView, TrialRow, TrialState } from '@sthene/contract';
import { checkFacts, headlineMetric, protocolReference, type ResultInShort, sdOf } from '@sthene/core';
import type { Session, SessionSummary, StandingTrial, TrialStanding } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { dateOf, spanOfDay } from '../live/clock.ts';
import { problems } from '../server/problem-error.ts';
import { liveFactsOf } from './live-facts.ts';
import { nameOf } from './people.ts';
import { documentOf } from './protocols.ts';

interface PageQuery {
  readonly text?: string | undefined;
  readonly person?: string | undefined;
  readonly protocol?: string | undefined;
  readonly offset: number;
  readonly limit: number;
}

/** One page of sessions, newest first. */
export async function sessionsPage(lab: OpenLab, query: PageQuery): Promise<SessionPage> {
  const filter = {
    ...(query.text ? { text: query.text } : {}),
    ...(query.person ? { person: query.person } : {}),
    ...(query.protocol ? { protocol: query.protocol } : {}),
  };
  let after: string | undefined;
  for (let skipped = 0; skipped < query.offset; ) {
    const step = Math.min(500, query.offset - skipped);
    const page = await lab.store.sessions.list({ ...filter, limit: step, ...(after === undefined ? {} : { after }) });
    if (page.next === undefined) return { total: page.total, rows: [] };
    after = page.next;
    skipped += step;
  }
  const page = await lab.store.sessions.list({
    ...filter,
    limit: query.limit,
    ...(after === undefined ? {} : { after }),
  });
  return { total: page.total, rows: await sessionRows(lab, page.items) };
}

/** One session with its trials. */
export async function sessionView(lab: OpenLab, id: string): Promise<SessionView> {
  const session = await lab.store.sessions.get(id);
  if (session === undefined) throw problems.notFound('session');
  const [summary] = (await lab.store.sessions.list({ session: id })).items;
  if (summary === undefined) throw problems.notFound('session');
  const trials = await lab.store.trials.standingIn(session);
  const rows = await trialRows(lab, trials);
  return {
    ...withSpread((await sessionRows(lab, [summary]))[0] as SessionRow, rows),
    setup: { ...session.setup },
    ...(session.bodyWeight === undefined
      ? {}
      : { bodyWeight: { value: session.bodyWeight.value, from: session.bodyWeight.from } }),
    gravity: session.gravity,
    ...(await ranBy(lab, session)),
    notes: session.notes,
    sameDay: await sameDayAs(lab, session),
    ...(await weighedInOf(lab, trials[0]?.trial.id)),
    rows,
    values: session.resultsOnly ? await valuesOf(lab, id) : [],
  };
}

/** The person's other sessions of the day on the station's calendar, in order of time. */
async function sameDayAs(lab: OpenLab, { id, person, startedAt }: Session): Promise<SessionView['sameDay']> {
  const [from, until] = spanOfDay(dateOf(startedAt));
  const { items } = await lab.store.sessions.list({ person, from, until, limit: 500 });
  return items
    .flatMap(({ session: one }) =>
      one.id === id ? [] : [{ id: one.id, protocol: one.protocol.id, startedAt: one.startedAt, ...loadOf(one) }],
    )
    .sort((a, b) => a.startedAt.localeCompare(b.startedAt));
}

/** Where the body weight comes from, if it was taken in an earlier test of the day. */
async function weighedInOf(lab: OpenLab, trial: string | undefined): Promise<Pick<SessionView, 'weighedIn'>> {
  const before = trial === undefined ? undefined : (await liveFactsOf(lab, trial))?.weighedBefore;
  const weighed = before && (await lab.store.trials.get(before.trial));
  return before === undefined || weighed === undefined
    ? {}
    : { weighedIn: { id: weighed.session, protocol: before.test } };
}

/** The protocol version a session was run by, where one is known. */
export async function ranBy(lab: OpenLab, { protocol: { sha256 } }: Session): Promise<Pick<SessionView, 'ranBy'>> {
  if (sha256 === undefined) return {};
  return { ranBy: protocolReference(await documentOf(lab, sha256)) };
}

/** Adds the sample SD of the peak forces that enter the summary, where there are two or more. */
function withSpread(row: SessionRow, trials: readonly TrialRow[]): SessionRow {
  const counting = trials.filter(
    ({ effort, state }) => effort === 'maximal' && (state === 'counts' || state === 'overruled'),
  );
  const spread = (n: number, values: readonly number[]) =>
    values.length < 2 || values.length !== n ? {} : { sd: sdOf(values) };
  const { peakForce, headline } = row;
  if (peakForce !== undefined) {
    const peaks = counting.flatMap((one) => (one.unit === peakForce.unit ? (one.peakForce ?? []) : []));
    return { ...row, peakForce: { ...peakForce, ...spread(peakForce.n, peaks) } };
  }
  if (headline === undefined) return row;
  const heights = counting.flatMap((one) => (one.headline?.unit === headline.unit ? one.headline.value : []));
  return { ...row, headline: { ...headline, ...spread(headline.n, heights) } };
}

/** Rows of the list; those of results only say where they come from. */
async function sessionRows(lab: OpenLab, summaries: readonly SessionSummary[]): Promise<SessionRow[]> {
  const without = summaries.filter(({ session }) => session.resultsOnly).map(({ session }) => session.id);
  const about = without.length === 0 ? undefined : await lab.store.received.about(without);
  return summaries.map((one) => {
    const received = about?.get(one.session.id);
    if (received === undefined) return sessionRow(one);
    const { methodLabel, timeKnown, import: from, fileName } = received;
    return { ...sessionRow(one), received: { methodLabel, timeKnown, import: from, fileName } };
  });
}

/** Values of a session of results only, as they were received. */
async function valuesOf(lab: OpenLab, session: string): Promise<SessionView['values']> {
  const values = await lab.store.received.ofSession(session);
  return values.map(({ id, row, position, of, metric, value, unit, reason, given }) => ({
    ...{ id, row, of, metric, unit, given },
    ...(position === undefined ? {} : { position }),
    ...(value === undefined ? {} : { value }),
    ...(reason === undefined ? {} : { reason }),
  }));
}

function sessionRow(one: SessionSummary): SessionRow {
  return {
    id: one.session.id,
    person: { id: one.session.person, name: nameOf(one.person), code: one.person.code },
    protocol: one.session.protocol.id,
    startedAt: one.session.startedAt,
    ...loadOf(one.session),
    trials: one.trials.total,
    counting: one.trials.byStanding.counts,
    lookAgain: one.trials.byStanding['look-again'],
    repeat: one.trials.byStanding.repeat,
    excluded: one.trials.byStanding.excluded,
    ...(one.summary === undefined ? {} : summaryOf(headlineMetric(one.session.protocol.id), one.summary)),
  };
}

/** What a session of loaded jumps was jumped with. */
const loadOf = ({ setup: { load } }: Session): Pick<SessionRow, 'load'> => (typeof load === 'number' ? { load } : {});

/** Peak force as it always was; what ranks jumps with its name, so that it is never read as a force. */
function summaryOf(
  metric: string,
  { mean: value, unit, count: n }: NonNullable<SessionSummary['summary']>,
): Pick<SessionRow, 'peakForce' | 'headline'> {
  if (metric === 'peak_force') return { peakForce: { value, unit, n, rule: 'mean-all' } };
  return { headline: { metric, value, unit, n } };
}

/** What ranks a jump, with its name; nothing for an isometric effort, whose peak force has a place of its own. */
export function headlineOf(result: ResultInShort | undefined): Pick<TrialRow, 'headline'> {
  const metric = result === undefined ? 'peak_force' : headlineMetric(result.test);
  const measured = result?.metrics[metric];
  if (metric === 'peak_force' || measured === undefined || 'reason' in measured) return {};
  return { headline: { metric, value: measured.value, unit: measured.unit } };
}

/** Trials of a session as rows, each with its verdict, how it stands and the finding that weighs most. */
export async function trialRows(lab: OpenLab, trials: readonly StandingTrial[]): Promise<TrialRow[]> {
  return Promise.all(
    trials.map(async (one) => trialRow(one, (await lab.store.results.current(one.trial.id))?.document)),
  );
}

/** A trial as one row, with the values of its result in force. */
export function trialRow({ trial, standing }: StandingTrial, result: ResultInShort | undefined): TrialRow {
  const peak = result?.metrics.peak_force;
  const rate = result?.metrics.rfd_0_200;
  return {
    id: trial.id,
    order: trial.position,
    effort: trial.effort,
    verdict: standing.verdict ?? 'repeat',
    state: stateOf(standing),
    ...(peak && 'value' in peak ? { peakForce: peak.value } : {}),
    ...(rate && 'value' in rate ? { rateOfForceDevelopment200: rate.value } : {}),
    unit: peak && 'value' in peak ? peak.unit : 'N',
    ...headlineOf(result),
    ...(result === undefined ? {} : worstFinding(result)),
  };
}

/** How a trial stands, with a person's overruling told apart from a verdict. */
export function stateOf(standing: Pick<TrialStanding, 'standing' | 'effective'>): TrialState {
  if (standing.standing === 'not-analysed') return 'repeat';
  if (standing.standing === 'counts' && standing.effective.overruled !== undefined) return 'overruled';
  return standing.standing;
}

function worstFinding(result: ResultInShort): { worst?: string } {
  const found = (status: string) => Object.entries(result.checks).find(([, check]) => check.status === status)?.[0];
  const id = found('fail') ?? found('warn');
  return id === undefined ? {} : { worst: checkFacts.get(id)?.finding ?? id };
}
