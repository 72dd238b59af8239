import type { ReliabilityView } from '@sthene/contract';
import { reliabilityStudy } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { checkAdoption } from '../follow/adopt.ts';
import { adoptionFor, listAdoptions } from '../follow/adoptions.ts';
import { nameOf } from '../people.ts';
import { type Asked, chosen } from './chosen.ts';
import { labHistory } from './history.ts';
import { metricFacts } from './metrics.ts';
import { newestSessions, valuesOf } from './repeated.ts';

/** The study as it is sent; the route's schema checks every field of it. */
type Study = NonNullable<ReliabilityView['study']>;

/** How good a test of the lab is, from the newest sessions of each athlete. */
export async function reliabilityView(
  lab: OpenLab,
  asked: Asked & { readonly sessions: number },
): Promise<ReliabilityView> {
  const { definition, test, belongs, choice } = await chosen(lab, asked);
  const base = { ...choice, sessions: asked.sessions };
  if (test === undefined)
    return { ...base, metric: metricFacts(definition), scale: 'unit', people: [], reason: 'too-few-values' };
  const history = await labHistory(lab, test, definition);
  const newest = newestSessions(history, asked.sessions, belongs);
  const table = valuesOf(newest);
  const names = new Map((await lab.store.people.list()).map((one) => [one.id, { name: nameOf(one), code: one.code }]));
  const study = reliabilityStudy(table, history.scale);
  const squads = choice.squad === undefined ? [] : [choice.squad];
  const adopted = adoptionFor(await listAdoptions(lab), history, squads);
  const later = adopted && (await checkAdoption(lab, adopted, history, belongs));
  return {
    ...base,
    test,
    metric: { ...metricFacts(definition), unit: history.unit },
    scale: history.scale,
    people: [...newest.keys()].map((id, i) => ({
      id,
      ...(names.get(id) ?? { name: '', code: '' }),
      values: [...(table[i] ?? [])],
    })),
    ...(study.ok ? { study: study.value as unknown as Study } : { reason: study.reason }),
    ...(adopted === undefined ? {} : { adopted }),
    ...(later === undefined ? {} : { later }),
  };
}
