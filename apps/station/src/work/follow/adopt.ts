import type { Adoption, AdoptionCheck } from '@sthene/contract';
import { noiseOfTest, ratioOfErrors, reliabilityStudy } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError, problems } from '../../server/problem-error.ts';
import { type LabHistory, labHistory, repeatedValues } from '../athlete/history.ts';
import { metricNamed } from '../athlete/metrics.ts';
import { newestSessions, valuesOf } from '../athlete/repeated.ts';
import { adoptionsKey, listAdoptions } from './adoptions.ts';

interface Draft {
  readonly test: string;
  readonly metric: string;
  readonly squad?: string | undefined;
  readonly sessions: number;
  readonly shown: number;
  readonly reason: string;
  readonly by: string;
}

/** Adopts the study of the newest sessions as the noise of a squad or of everybody; it takes the place of an earlier one. */
export async function adopt(lab: OpenLab, draft: Draft): Promise<Adoption> {
  const squad = (await lab.store.squads.list()).find(({ id }) => id === draft.squad);
  if (draft.squad !== undefined && squad === undefined) throw problems.notFound('squad');
  const history = await labHistory(lab, draft.test, metricNamed(draft.metric, draft.test));
  const belongs = (person: string) => squad === undefined || squad.members.includes(person);
  const study = reliabilityStudy(valuesOf(newestSessions(history, draft.sessions, belongs)), history.scale);
  if (!study.ok)
    throw new ProblemError(
      422,
      'study-impossible',
      'There is no reliability study of these sessions.',
      'Nothing was changed. Test the squad again, or choose fewer sessions.',
    );
  const { error, level, people, worthwhile } = study.value;
  // Somebody who decides by a number decides about that number.
  if (Math.abs(error.value - draft.shown) > 1e-9 * error.value)
    throw new ProblemError(
      409,
      'study-changed',
      'New sessions have come in since this study was shown.',
      'Nothing was changed. Look at the study as it is now, then adopt it.',
    );
  const { low, high } = error.interval;
  const adopted: Adoption = {
    id: crypto.randomUUID(),
    ...{ test: draft.test, metric: draft.metric, unit: history.unit, scale: history.scale },
    ...(draft.squad === undefined ? {} : { squad: draft.squad }),
    error: { value: error.value, df: error.df },
    interval: { low, high, level },
    ...(worthwhile.ok ? { worthwhile: worthwhile.value } : {}),
    ...{ people, sessions: draft.sessions, at: new Date().toISOString(), by: draft.by, reason: draft.reason },
  };
  const others = (await listAdoptions(lab)).filter(
    (one) => !(one.test === draft.test && one.metric === draft.metric && one.squad === draft.squad),
  );
  await lab.store.settings.set(adoptionsKey, [...others, adopted], await lab.actor(draft.by), { reason: draft.reason });
  return adopted;
}

/** How the sessions after an adoption agree with it; undefined while there are too few of them. */
export async function checkAdoption(
  lab: OpenLab,
  adopted: Adoption,
  history: LabHistory,
  belongs: (person: string) => boolean,
): Promise<AdoptionCheck | undefined> {
  const after = history.everyone.filter(({ at, person }) => at > adopted.at && belongs(person));
  const found = noiseOfTest(await repeatedValues(lab, { ...history, everyone: after }), history.scale);
  if (!found.ok) return undefined;
  const { error, people, sessions } = found.value;
  const { ratio, p } = ratioOfErrors(error, adopted.error);
  return { error: { value: error.value, df: error.df }, people, sessions, ratio, p };
}
