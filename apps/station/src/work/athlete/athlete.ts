import type { AthleteView } from '@sthene/contract';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { showPerson } from '../people.ts';
import { receivedLines } from '../received/lines.ts';
import { circumstancesOf, labHistory, withNoise } from './history.ts';
import { judge } from './judge.ts';
import { allMetrics, metricFacts, metricNamed } from './metrics.ts';

interface Asked {
  readonly test?: string | undefined;
  readonly metric?: string | undefined;
}

/** One metric of an athlete over time, the noise of the test in this lab, and what may be said of the newest session. */
export async function athleteView(lab: OpenLab, id: string, asked: Asked): Promise<AthleteView> {
  const person = await showPerson(lab, id);
  if (person === undefined) throw problems.notFound('athlete');
  const definition = metricNamed(asked.metric);
  const tests = await testsOf(lab, id);
  const test = tests.find((one) => one.id === asked.test)?.id ?? tests[0]?.id;
  const metric = metricFacts(definition);
  const base = { person, tests, metrics: allMetrics() };
  if (test === undefined)
    return {
      ...base,
      metric,
      sessions: [],
      received: [],
      scale: 'unit',
      noise: {},
      changes: [],
      reason: 'too-few-values',
    };
  const history = await withNoise(lab, await labHistory(lab, test, definition, id));
  const own = history.everyone.filter((one) => one.person === id);
  return {
    ...base,
    test,
    metric: { ...metric, unit: history.unit },
    received: await receivedLines(lab, { person: id, metric: definition.id, protocol: test }),
    ...judge(history, own, await circumstancesOf(lab, own)),
  };
}

async function testsOf(lab: OpenLab, id: string): Promise<AthleteView['tests']> {
  const counts = new Map<string, number>();
  let after: string | undefined;
  do {
    const page = await lab.store.sessions.list({ person: id, limit: 500, ...(after === undefined ? {} : { after }) });
    for (const { session } of page.items) counts.set(session.protocol.id, (counts.get(session.protocol.id) ?? 0) + 1);
    after = page.next;
  } while (after !== undefined);
  return [...counts].map(([test, sessions]) => ({ id: test, sessions })).sort((a, b) => b.sessions - a.sessions);
}
