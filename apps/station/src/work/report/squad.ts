import type { ReportQuery } from '@sthene/contract';
import type { SquadInput } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { squadTable } from '../athlete/squad.ts';
import { type Said, saysOf } from './handed-out.ts';
import { nothingToSay } from './refusals.ts';
import { checksOfSessions } from './rig-check.ts';

/** What the page of a squad is made of: the table of the athletes' screen, with birth dates; and what it says. */
export async function squadInput(lab: OpenLab, asked: ReportQuery): Promise<Said<SquadInput>> {
  const table = await squadTable(lab, asked);
  const { test, metric, scale } = table;
  if (test === undefined) throw nothingToSay('The lab has no session yet.');
  const born = new Map((await lab.store.people.list()).map(({ id, birthDate }) => [id, birthDate]));
  const newest = table.rows.flatMap(({ value }) => value?.session ?? []);
  const shown = await lab.store.sessions.getMany(newest);
  return {
    input: {
      squad: table.squads.find(({ id }) => id === table.squad)?.name,
      ...{ test, metric, scale },
      rows: table.rows.map(({ person, sessions, last, value, z, change }) => ({
        person: { name: person.name, code: person.code, birthDate: born.get(person.id) },
        ...{ sessions, last, value, change },
        z: z?.value,
      })),
      rigChecks: await checksOfSessions(lab, shown),
    },
    says: table.rows.flatMap(({ person, value, change }) =>
      value === undefined
        ? []
        : [
            saysOf('squad', {
              ...{ person: person.id, session: value.session, value: value.value },
              ...{ test, metric, reference: table.against, change },
            }),
          ],
    ),
  };
}
