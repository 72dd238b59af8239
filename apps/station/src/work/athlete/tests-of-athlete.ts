import type { AthleteView } from '@sthene/contract';
import type { OpenLab } from '../../labs/open-lab.ts';

/** Tests an athlete has sessions of, most first. */
export async function testsOf(lab: OpenLab, id: string): Promise<AthleteView['tests']> {
  const counts = new Map<string, number>();
  let after: string | undefined;
  do {
    const page = await lab.store.sessions.list({ person: id, limit: 500, ...(after === undefined ? {} : { after }) });
    for (const { session } of page.items) counts.set(session.protocol.id, (counts.get(session.protocol.id) ?? 0) + 1);
    after = page.next;
  } while (after !== undefined);
  return [...counts].map(([test, sessions]) => ({ id: test, sessions })).sort((a, b) => b.sessions - a.sessions);
}

/** Ids of the squads somebody belongs to. */
export const squadsOf = async (lab: OpenLab, person: string): Promise<string[]> =>
  (await lab.store.squads.list()).filter(({ members }) => members.includes(person)).map(({ id }) => id);
