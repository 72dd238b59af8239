import { type Adoption, adoption } from '@sthene/contract';
import { type Scale, type TestNoise, worthwhileShare } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';

export const adoptionsKey = 'follow.adopted';

/** Studies in force, oldest first. What was in force before stays in the history of the setting. */
export async function listAdoptions(lab: OpenLab): Promise<Adoption[]> {
  const kept = adoption.array().safeParse((await lab.store.settings.get(adoptionsKey))?.value ?? []);
  return kept.success ? kept.data : [];
}

export async function endAdoption(
  lab: OpenLab,
  id: string,
  { reason, by }: { readonly reason: string; readonly by: string },
): Promise<Adoption[]> {
  const kept = await listAdoptions(lab);
  const left = kept.filter((one) => one.id !== id);
  if (left.length === kept.length) throw problems.notFound('adopted study');
  await lab.store.settings.set(adoptionsKey, left, await lab.actor(by), { reason });
  return left;
}

/** What a study has to be of to be used. */
interface Judged {
  readonly test: string;
  readonly metric: string;
  readonly unit: string;
  readonly scale: Scale;
}

/** The adoption that holds for somebody of these squads: their squad's, the newest of several, else that of everybody. */
export function adoptionFor(
  adoptions: readonly Adoption[],
  { test, metric, unit, scale }: Judged,
  squads: readonly string[],
): Adoption | undefined {
  const fit = adoptions.filter(
    (one) => one.test === test && one.metric === metric && one.unit === unit && one.scale === scale,
  );
  return (
    fit.findLast(({ squad }) => squad !== undefined && squads.includes(squad)) ??
    fit.findLast(({ squad }) => squad === undefined)
  );
}

/** An adopted study in the place of the noise of the history. */
export const noiseOfAdoption = ({ scale, error, interval, worthwhile, people, sessions }: Adoption): TestNoise => ({
  ...{ scale, error, people },
  interval: { ...interval, value: error.value },
  spread: (worthwhile ?? 0) / worthwhileShare,
  worthwhile: worthwhile === undefined ? { ok: false, reason: 'no-spread' } : { ok: true, value: worthwhile },
  sessions: people * sessions,
  trends: 'common',
});
