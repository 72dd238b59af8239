import type { BatteryQuery, BatteryView } from '@sthene/contract';
import { headlineMetric, protocolRegistry } from '@sthene/core';
import type { OpenLab } from '../../labs/open-lab.ts';
import { spanOfDay } from '../../live/clock.ts';
import { problems } from '../../server/problem-error.ts';
import { squadsOf, testsOf } from '../athlete/tests-of-athlete.ts';
import { nameOf } from '../people.ts';
import { ratioDefinitions } from './definitions.ts';
import { calendarDay } from './match.ts';
import { profileView } from './profile.ts';
import { type Asked, ratioView } from './ratios.ts';
import { sideHistory } from './side-history.ts';

/** What an athlete's tests say together: ratios, the force-velocity profile, and the tests they come from. */
export async function batteryView(
  lab: OpenLab,
  id: string,
  { on, apart, pushOff }: BatteryQuery,
): Promise<BatteryView> {
  const person = await lab.store.people.get(id);
  if (person === undefined) throw problems.notFound('athlete');
  const asked: Asked = { person: id, squads: await squadsOf(lab, id), until: on, apart };
  return {
    person: { id, name: nameOf(person), code: person.code },
    ...(on === undefined ? {} : { on }),
    apart,
    ...(await sessionsAbout(lab, id, on)),
    ratios: await Promise.all(ratioDefinitions.map((definition) => ratioView(lab, definition, asked))),
    profile: await profileView(lab, asked, pushOff === undefined ? undefined : pushOff / 100),
    tests: await newestTests(lab, asked),
  };
}

/** How many sessions an athlete has up to a day of the station's calendar, and after it. */
async function sessionsAbout(
  lab: OpenLab,
  person: string,
  on: string | undefined,
): Promise<Pick<BatteryView, 'sessions' | 'later'>> {
  const { total } = await lab.store.sessions.list({ person, limit: 1 });
  if (on === undefined) return { sessions: total, later: 0 };
  const [, from] = spanOfDay(on);
  const later = (await lab.store.sessions.list({ person, from, limit: 1 })).total;
  return { sessions: total - later, later };
}

/**
 * The newest session of each test within so many days before the newest of all, by the value its efforts are ranked by. Loaded jumps
 * stand in the profile: values of different loads have no noise in common.
 */
async function newestTests(lab: OpenLab, asked: Asked): Promise<BatteryView['tests']> {
  const sides = await Promise.all(
    (await testsOf(lab, asked.person))
      .filter(({ id }) => protocolRegistry.get(id)?.jump?.loaded !== true)
      .map(({ id }) => sideHistory(lab, asked, id, headlineMetric(id))),
  );
  const newest = sides.flatMap((side) => {
    const session = side.valued.at(-1);
    return session === undefined ? [] : [{ side, session }];
  });
  const last = Math.max(...newest.map(({ session }) => calendarDay(session.at)));
  return newest
    .filter(({ session }) => last - calendarDay(session.at) <= asked.apart)
    .map(({ side, session }) => ({
      ...{ test: side.test, metric: side.metric, title: side.title, unit: side.unit },
      ...{ value: session.value, session: session.session, at: session.at, n: session.n, maximal: session.maximal },
      ...side.errorOf(session),
      familiarisation: session.familiarisation,
    }));
}
