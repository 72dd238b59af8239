import { mostPreviewed, type Preview, type PreviewedTrial, type PreviewRequest } from '@sthene/contract';
import { type Method, metricFacts, type TrialResult, validateMethod } from '@sthene/core';
import { type Person, standingOf, type Trial } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { findMethod } from '../methods.ts';
import { nameOf } from '../people.ts';
import { readingOneAfterTheOther } from '../read-recording.ts';
import { type Both, comparedMetric } from '../recompute/compared.ts';
import { changedChecks } from '../recompute/flips.ts';
import { type Judged, judgeTrial } from '../recompute/judge.ts';
import { refused } from './succeed.ts';

/** Lets the station breathe between two trials, and waits while an effort is under way. */
export type Breath = () => Promise<void>;

/** What a method would make of some trials, beside what is in force. Nothing is stored, a document is not kept either. */
export async function previewMethod(lab: OpenLab, asked: PreviewRequest, breath: Breath): Promise<Preview> {
  const method = await methodAsked(lab, asked);
  const all = (await trialsAsked(lab, asked)).filter(({ recording }) => recording !== undefined);
  const read = readingOneAfterTheOther();
  const judged: Judged[] = [];
  for (const { id } of all.slice(0, mostPreviewed)) {
    judged.push(await judgeTrial(lab, id, method, read, { keepsMethods: false }));
    await breath();
  }
  const people = new Map((await lab.store.people.list()).map((one) => [one.id, one]));
  const counting = judged.filter(counts).map(bothDocuments);
  return {
    trials: judged.map((one) => previewed(one, people.get(one.view.session.person))),
    metrics: metricFacts.all.flatMap((definition) => {
      const both = counting.map(([was, is]): Both => [was?.metrics[definition.id], is?.metrics[definition.id]]);
      return comparedMetric(definition, both) ?? [];
    }),
    cut: all.length > mostPreviewed,
  };
}

async function methodAsked(lab: OpenLab, { method, document }: PreviewRequest): Promise<Method> {
  if (document === undefined) return findMethod(lab, method);
  const outcome = validateMethod({ schema: 'sthene.method/1', version: 1, ...document });
  if (!outcome.ok) throw refused(outcome.problems);
  return outcome.method;
}

async function trialsAsked(lab: OpenLab, asked: PreviewRequest): Promise<Trial[]> {
  const { store } = lab;
  if (asked.session !== undefined) {
    if ((await store.sessions.get(asked.session)) === undefined) throw problems.notFound('session');
    return store.trials.ofSession(asked.session);
  }
  const { items } = await store.sessions.list({
    limit: asked.sessions,
    ...(asked.person === undefined ? {} : { person: asked.person }),
    ...(asked.test === undefined ? {} : { protocol: asked.test }),
  });
  return (await Promise.all(items.map(({ session }) => store.trials.ofSession(session.id)))).flat();
}

const bothDocuments = ({ view, made }: Judged): readonly [TrialResult | undefined, TrialResult | undefined] => [
  view.result?.document,
  'document' in made ? made.document : undefined,
];

/** Maximal efforts that count by one of the two methods at least. */
function counts(judged: Judged): boolean {
  const { trial, effective } = judged.view;
  return (
    trial.effort === 'maximal' &&
    bothDocuments(judged).some((document) => standingOf(document?.verdict, effective) === 'counts')
  );
}

function previewed(judged: Judged, person: Person | undefined): PreviewedTrial {
  const { trial, session } = judged.view;
  const [was, is] = bothDocuments(judged);
  const values: PreviewedTrial['values'] = {};
  for (const { id } of metricFacts.all) {
    const both = [valueIn(was, id), valueIn(is, id)] as [number | null, number | null];
    if (both.some((value) => value !== null)) values[id] = both;
  }
  return {
    trial: trial.id,
    session: session.id,
    person: {
      id: session.person,
      name: person === undefined ? '' : nameOf(person),
      code: person?.code ?? '',
    },
    order: trial.position,
    test: session.protocol.id,
    at: session.startedAt,
    effort: trial.effort,
    ...(was === undefined ? {} : { from: was.verdict }),
    ...(is === undefined ? {} : { to: is.verdict }),
    checks: is === undefined ? [] : changedChecks(was, is),
    values,
    ...('code' in judged.made ? { problem: { ...judged.made } } : {}),
  };
}

function valueIn(document: TrialResult | undefined, metric: string): number | null {
  const measured = document?.metrics[metric];
  return measured !== undefined && 'value' in measured ? measured.value : null;
}
