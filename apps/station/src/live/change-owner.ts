import type { TrialView, trialOwner } from '@sthene/contract';
import type { z } from 'zod';
import { problems } from '../server/problem-error.ts';
import { trialView } from '../work/trial-view.ts';
import type { LiveLab } from './live-lab.ts';

/**
 * Gives a trial to the person who really did it. It goes to that person's session of the same test and day, or a new one; where
 * it came from stays with its origin, and every earlier state stays in its history.
 */
export async function changeOwner(
  live: LiveLab,
  id: string,
  { person, reason, by }: z.infer<typeof trialOwner>,
): Promise<TrialView> {
  const { lab } = live;
  const trial = await lab.store.trials.get(id);
  const from = trial && (await lab.store.sessions.get(trial.session));
  if (trial === undefined || from === undefined) throw problems.notFound('trial');
  if ((await lab.store.people.get(person)) === undefined) throw problems.notFound('person');
  if (from.person === person) return trialView(lab, id);
  const actor = await lab.actor(by);
  const days = await lab.store.days.list();
  const origin = await lab.store.origins.ofTrial(id);
  const entry = origin?.entry === undefined ? undefined : await lab.store.dayEntries.get(origin.entry);
  const day = days.find((one) => one.id === entry?.day);
  const entries = day === undefined ? [] : await lab.store.dayEntries.ofDay(day.id);
  const theirs = entries.find((one) => one.person === person && one.test === from.protocol.id);
  await lab.store.transaction(async (inside) => {
    let session = theirs?.session;
    if (session === undefined) {
      const made = await inside.sessions.add(
        {
          person,
          protocol: from.protocol,
          startedAt: from.startedAt,
          gravity: from.gravity,
          setup: theirs?.setup ?? {},
          ...(from.rig === undefined ? {} : { rig: from.rig }),
          ...(from.bodyWeight === undefined ? {} : { bodyWeight: from.bodyWeight }),
        },
        actor,
      );
      session = made.id;
      if (theirs !== undefined) await inside.dayEntries.change(theirs.id, { session }, actor, { reason });
    }
    const last = (await inside.trials.ofSession(session)).at(-1)?.position ?? 0;
    await inside.trials.change(id, { session, position: last + 1 }, actor, { reason });
  });
  if (live.loaded !== undefined) await live.refresh();
  return trialView(lab, id);
}
