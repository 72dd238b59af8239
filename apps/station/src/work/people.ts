import type { Person, PersonDraft, Squad } from '@sthene/contract';
import {
  type Actor,
  type Repositories,
  type Person as StoredPerson,
  type Squad as StoredSquad,
  StoreError,
} from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { stationActor } from '../labs/open-lab.ts';
import { ProblemError, problems } from '../server/problem-error.ts';

export async function listPeople(lab: OpenLab): Promise<Person[]> {
  const [people, squads, counts] = await Promise.all([
    lab.store.people.list(),
    lab.store.squads.list(),
    lab.store.sessions.counts(),
  ]);
  const total = new Map<string, number>();
  for (const { person, sessions } of counts) total.set(person, (total.get(person) ?? 0) + sessions);
  return people.map((one) =>
    personAnswer(
      one,
      squads.filter((squad) => squad.members.includes(one.id)).map((squad) => squad.name),
      total.get(one.id) ?? 0,
    ),
  );
}

/** One athlete; undefined where nobody has the id. */
export async function showPerson({ store }: OpenLab, id: string): Promise<Person | undefined> {
  const found = await store.people.get(id);
  if (found === undefined) return undefined;
  const squads = (await store.squads.list()).filter(({ members }) => members.includes(id));
  const { total } = await store.sessions.list({ person: id, limit: 1 });
  return personAnswer(
    found,
    squads.map(({ name }) => name),
    total,
  );
}

export async function listSquads(lab: OpenLab): Promise<Squad[]> {
  return (await lab.store.squads.list()).map((squad) => ({
    id: squad.id,
    name: squad.name,
    members: squad.members.length,
  }));
}

/** A squad by id or name. */
export async function squadNamed({ store }: OpenLab, name: string): Promise<StoredSquad> {
  const squads = await store.squads.list();
  const folded = name.trim().toLowerCase();
  const found = squads.find(({ id }) => id === name) ?? squads.find((one) => one.name.toLowerCase() === folded);
  if (found === undefined) throw problems.notFound('squad');
  return found;
}

/** Adds an athlete, also inside a transaction; without a code the next free one is given. */
export async function createPerson(
  { people }: Pick<Repositories, 'people'>,
  draft: PersonDraft,
  actor: Actor = stationActor,
): Promise<Person> {
  try {
    const person = await people.add(
      {
        code: draft.code ?? (await freeCode(people, draft)),
        givenName: draft.givenName,
        familyName: draft.familyName,
        ...(draft.birthDate === undefined ? {} : { birthDate: draft.birthDate }),
        ...(draft.sex === undefined ? {} : { sex: draft.sex }),
      },
      actor,
    );
    return personAnswer(person, [], 0);
  } catch (error) {
    if (error instanceof StoreError && error.code === 'already-there')
      throw new ProblemError(
        409,
        'code-taken',
        'Another athlete has this code.',
        'Choose another code, or leave it empty to be given one.',
      );
    throw error;
  }
}

/** Initials and a number: short enough for a list, and it gives no name away. */
async function freeCode(people: Repositories['people'], draft: PersonDraft): Promise<string> {
  const initials = `${draft.givenName[0] ?? ''}${draft.familyName[0] ?? ''}`.toUpperCase() || 'A';
  for (let number = 1; ; number++) {
    const code = `${initials}${String(number).padStart(2, '0')}`;
    if ((await people.byCode(code)) === undefined) return code;
  }
}

function personAnswer(person: StoredPerson, squads: string[], sessions: number): Person {
  return {
    id: person.id,
    code: person.code,
    givenName: person.givenName,
    familyName: person.familyName,
    ...(person.birthDate === undefined ? {} : { birthDate: person.birthDate }),
    ...(person.sex === undefined ? {} : { sex: person.sex }),
    squads,
    notes: person.notes,
    sessions,
  };
}

/** Name as shown in lists. */
export const nameOf = (person: { givenName: string; familyName: string }): string =>
  `${person.givenName} ${person.familyName}`.trim();
