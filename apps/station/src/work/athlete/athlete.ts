import type { AthleteView } from '@sthene/contract';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { readFollowRules } from '../follow/rules.ts';
import { showPerson } from '../people.ts';
import { receivedLines } from '../received/lines.ts';
import { circumstancesOf, labHistory, withNoise } from './history.ts';
import { judge } from './judge.ts';
import { metricFacts, metricNamed, metricsToChoose } from './metrics.ts';
import { setupsAndMethods } from './setups.ts';
import { squadsOf, testsOf } from './tests-of-athlete.ts';

interface Asked {
  readonly test?: string | undefined;
  readonly metric?: string | undefined;
}

/** One metric of an athlete over time, the noise of the test in this lab, and what may be said of the newest session. */
export async function athleteView(lab: OpenLab, id: string, asked: Asked): Promise<AthleteView> {
  const person = await showPerson(lab, id);
  if (person === undefined) throw problems.notFound('athlete');
  const tests = await testsOf(lab, id);
  const test = tests.find((one) => one.id === asked.test)?.id ?? tests[0]?.id;
  const definition = metricNamed(asked.metric, test);
  const metric = metricFacts(definition);
  const base = { person, tests, metrics: metricsToChoose(test) };
  if (test === undefined)
    return {
      ...{
        ...base,
        metric,
        sessions: [],
        received: [],
        scale: 'unit',
        noise: {},
        changes: [],
        targets: [],
        setupFields: [],
      },
      reason: 'too-few-values',
    };
  const history = await withNoise(lab, await labHistory(lab, test, definition, id), await squadsOf(lab, id));
  const own = history.everyone.filter((one) => one.person === id);
  const circumstances = await circumstancesOf(lab, own);
  const judged = judge(history, own, circumstances, await readFollowRules(lab));
  return {
    ...base,
    test,
    metric: { ...metric, unit: history.unit },
    ...judged,
    received: await receivedLines(lab, { person: id, metric: definition.id, protocol: test }),
    ...(await setupsAndMethods(lab, test, judged.sessions, circumstances)),
    targets: await targetsOf(lab, id, { test, metric: definition.id, unit: history.unit }),
  };
}

/** Targets of this value that are in force, whatever day it is: one whose day is past is still what was to be reached. */
async function targetsOf(
  lab: OpenLab,
  person: string,
  of: { readonly test: string; readonly metric: string; readonly unit: string },
): Promise<AthleteView['targets']> {
  const notes = (await lab.store.notes.list({ person })).filter(({ kind }) => kind === 'target');
  return notes.flatMap(({ test, target, until, text }) =>
    target === undefined || target.metric !== of.metric || target.unit !== of.unit || (test ?? of.test) !== of.test
      ? []
      : [{ value: target.value, ...(until === undefined ? {} : { until }), text }],
  );
}
