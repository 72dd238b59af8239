import type { PersonDecision, PersonDraft, ReceivedPerson } from '@sthene/contract';
import type { TablePerson } from '@sthene/formats/results-table';
import { nameOf } from '../people.ts';
import { type Known, matchPerson } from './match.ts';

/** Everybody of a table with who they may be, in the order of the table. */
export function peopleOf(
  people: readonly TablePerson[],
  known: readonly Known[],
  counts: ReadonlyMap<string, number>,
): ReceivedPerson[] {
  return people.map((said) => {
    const { match, candidates } = matchPerson(said, known);
    return {
      key: said.key,
      said: saidName(said),
      ...(said.code === undefined ? {} : { code: said.code }),
      ...(said.birthDate === undefined ? {} : { birthDate: said.birthDate }),
      row: said.row,
      values: counts.get(said.key) ?? 0,
      match,
      candidates: candidates.map(({ person, why }) => ({
        id: person.id,
        name: nameOf(person),
        code: person.code,
        ...(person.birthDate === undefined ? {} : { birthDate: person.birthDate }),
        why,
      })),
      draft: draftOf(said, known),
    };
  });
}

function saidName({ name, givenName, familyName, code }: TablePerson): string {
  return name ?? ([givenName, familyName].filter(Boolean).join(' ') || (code ?? ''));
}

/** What a new athlete would be called. Somebody known by a code alone is called by it until a name is given. */
function draftOf(said: TablePerson, known: readonly Known[]): PersonDraft {
  const [given, family] = split(said);
  const code = said.code?.slice(0, 40);
  const taken = known.some((one) => one.code.toLowerCase() === code?.toLowerCase());
  return {
    givenName: (given || family || code || '?').slice(0, 100),
    familyName: (given === '' ? '' : family).slice(0, 100),
    ...(code === undefined || taken ? {} : { code }),
    ...(said.birthDate === undefined ? {} : { birthDate: said.birthDate }),
    ...(said.sex === undefined ? {} : { sex: said.sex }),
  };
}

function split({ name, givenName = '', familyName = '' }: TablePerson): [given: string, family: string] {
  if (name === undefined) return [givenName, familyName];
  const [last = '', first] = name.split(',').map((part) => part.trim());
  if (first) return [first, last];
  const words = name.split(/\s+/);
  return [words.slice(0, -1).join(' ') || (words[0] ?? ''), words.length > 1 ? (words.at(-1) ?? '') : ''];
}

/** What was decided of each person; the last decision of a key holds. */
export const decisionsByKey = (decisions: readonly PersonDecision[]): Map<string, PersonDecision> =>
  new Map(decisions.map((one) => [one.key, one]));
