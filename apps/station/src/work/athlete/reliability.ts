import type { ReliabilityView } from '@sthene/contract';
import { reliabilityStudy } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { nameOf } from '../people.ts';
import { allMetrics, metricFacts, metricNamed } from './athlete.ts';
import { labHistory } from './history.ts';
import { newestSessions } from './repeated.ts';
import { testsOfLab } from './tests-of-lab.ts';

interface Asked {
  readonly squad?: string | undefined;
  readonly test?: string | undefined;
  readonly metric?: string | undefined;
  readonly sessions: number;
}

/** How good a test of the lab is, from the newest sessions of each athlete. */
export async function reliabilityView(lab: OpenLab, asked: Asked): Promise<ReliabilityView> {
  const squads = await lab.store.squads.list();
  const squad = squads.find(({ id }) => id === asked.squad);
  if (asked.squad !== undefined && asked.squad !== '' && squad === undefined) throw problems.notFound('squad');
  const definition = metricNamed(asked.metric);
  const tests = await testsOfLab(lab);
  const test = tests.find(({ id }) => id === asked.test)?.id ?? tests[0]?.id;
  const base = {
    squads: squads.map(({ id, name, members }) => ({ id, name, members: members.length })),
    ...(squad === undefined ? {} : { squad: squad.id }),
    ...{ tests, metrics: allMetrics(), sessions: asked.sessions },
  };
  if (test === undefined)
    return { ...base, metric: metricFacts(definition), scale: 'unit', people: [], reason: 'too-few-values' };
  const history = await labHistory(lab, test, definition);
  const repeated = newestSessions(
    history,
    asked.sessions,
    (person) => squad === undefined || squad.members.includes(person),
  );
  const names = new Map((await lab.store.people.list()).map((one) => [one.id, { name: nameOf(one), code: one.code }]));
  const study = reliabilityStudy(repeated.values, history.scale);
  return {
    ...base,
    test,
    metric: { ...metricFacts(definition), unit: history.unit },
    scale: history.scale,
    people: repeated.people.map((id, i) => ({
      id,
      ...(names.get(id) ?? { name: '', code: '' }),
      values: [...(repeated.values[i] as readonly (number | null)[])],
    })),
    ...(study.ok
      ? { study: JSON.parse(JSON.stringify(study.value)) as NonNullable<ReliabilityView['study']> }
      : { reason: study.reason }),
  };
}
