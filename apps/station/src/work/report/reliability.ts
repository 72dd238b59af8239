import type { ReportQuery } from '@sthene/contract';
import type { ReliabilityStudy } from '@sthene/core/stats';
import type { ReliabilityInput } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { labHistory } from '../athlete/history.ts';
import { metricNamed } from '../athlete/metrics.ts';
import { reliabilityView } from '../athlete/reliability.ts';
import { flowOf } from './flow.ts';
import { measuredOf } from './measured.ts';
import { nothingToSay } from './refusals.ts';

/** What the report on a test is made of: the study of its screen, what became of every effort, and how it was measured. */
export async function reliabilityInput(lab: OpenLab, asked: ReportQuery): Promise<ReliabilityInput> {
  const view = await reliabilityView(lab, { ...asked, sessions: asked.sessions ?? 2 });
  const { test, metric, scale, sessions, study, reason } = view;
  if (test === undefined) throw nothingToSay('The lab has no session yet.');
  const members = view.squad === undefined ? undefined : (await lab.store.squads.get(view.squad))?.members;
  const belongs = (person: string) => members === undefined || members.includes(person);
  const history = await labHistory(lab, test, metricNamed(metric.id, test));
  const own = history.everyone.filter(({ person }) => belongs(person));
  const inStudy = newestIds(own, metric.unit, sessions);
  return {
    squad: view.squads.find(({ id }) => id === view.squad)?.name,
    ...{ test, metric, scale, sessions },
    // Sent through the contract's schema on its way to a screen, the study is the core's own.
    study: study as unknown as ReliabilityStudy | undefined,
    reason,
    flow: await flowOf(lab, { test, metric: metric.id, belongs, inStudy, sessions: own }),
    measured: await measuredOf(lab, inStudy),
  };
}

type Own = Awaited<ReturnType<typeof labHistory>>['everyone'];

/** Sessions behind the study: the newest of each athlete that have a value, first sessions left out. */
function newestIds(own: Own, unit: string, count: number): ReadonlySet<string> {
  const byPerson = new Map<string, string[]>();
  for (const one of own)
    if (one.value !== undefined && !one.familiarisation && one.unit === unit)
      byPerson.set(one.person, [...(byPerson.get(one.person) ?? []), one.session]);
  return new Set([...byPerson.values()].flatMap((ids) => ids.slice(-count)));
}
