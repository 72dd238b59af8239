import type { Person } from '@sthene/contract';
import type { Who } from './state.ts';

export const personName = (person: Pick<Person, 'givenName' | 'familyName'>): string =>
  `${person.givenName} ${person.familyName}`.trim();

/** The name of whoever was chosen; '' while a new athlete has none. */
export const whoName = (who: Who): string => (who.kind === 'known' ? who.name : personName(who));

/** A typed name as a new athlete: the last word is the family name, the rest is given. */
export function newFrom(typed: string): Who {
  const parts = typed.trim().split(/\s+/);
  const familyName = parts.length > 1 ? (parts.at(-1) ?? '') : '';
  const givenName = parts.slice(0, Math.max(1, parts.length - 1)).join(' ');
  return { kind: 'new', givenName, familyName, code: '' };
}

const plain = (text: string) => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

/** Athletes whose name or code has every typed word in it, without case or accents. */
export function matching(people: readonly Person[], typed: string): Person[] {
  const wanted = plain(typed).split(/\s+/).filter(Boolean);
  return people.filter((person) => {
    const text = plain(`${personName(person)} ${person.code}`);
    return wanted.every((word) => text.includes(word));
  });
}

/** The one athlete with exactly this name or code. */
export function exactly(people: readonly Person[], typed: string): Person | undefined {
  const same = people.filter((person) =>
    [personName(person), person.code].some((text) => plain(text) === plain(typed.trim())),
  );
  return same.length === 1 ? same[0] : undefined;
}

export const known = (person: Person): Who => ({
  kind: 'known',
  id: person.id,
  name: personName(person),
  code: person.code,
});
