import type { AthleteView } from '@sthene/contract';
import type { OpenLab } from '../../labs/open-lab.ts';

/** Tests an athlete has sessions of, most first. */
export async function testsOf(lab: OpenLab, id: string): Promise<AthleteView['tests']> {
  const counts = (await lab.store.sessions.counts()).filter(({ person }) => person === id);
  return counts
    .map(({ protocol, sessions }) => ({ id: protocol, sessions }))
    .sort((a, b) => b.sessions - a.sessions || a.id.localeCompare(b.id));
}

/** Ids of the squads somebody belongs to. */
export const squadsOf = async (lab: OpenLab, person: string): Promise<string[]> =>
  (await lab.store.squads.list()).filter(({ members }) => members.includes(person)).map(({ id }) => id);
