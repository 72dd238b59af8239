import type { Squad } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { metricNamed, metricsToChoose } from './metrics.ts';
import { testsOfLab } from './tests-of-lab.ts';

/** What a page over many athletes is asked for. */
export interface Asked {
  readonly squad?: string | undefined;
  readonly test?: string | undefined;
  readonly metric?: string | undefined;
}

/** What there is to choose from, and what was chosen: everybody, the test with most sessions and the usual metric unless asked. */
export async function chosen(lab: OpenLab, asked: Asked) {
  const squads = await lab.store.squads.list();
  const squad: Squad | undefined = squads.find(({ id }) => id === asked.squad);
  if (asked.squad !== undefined && asked.squad !== '' && squad === undefined) throw problems.notFound('squad');
  const tests = await testsOfLab(lab);
  const test = tests.find(({ id }) => id === asked.test)?.id ?? tests[0]?.id;
  const definition = metricNamed(asked.metric, test);
  return {
    definition,
    test,
    /** Whether somebody belongs to what was asked for. */
    belongs: (person: string) => squad === undefined || squad.members.includes(person),
    /** The part of the answer that says so. */
    choice: {
      squads: squads.map(({ id, name, members }) => ({ id, name, members: members.length })),
      ...(squad === undefined ? {} : { squad: squad.id }),
      tests,
      metrics: metricsToChoose(test),
    },
  };
}
