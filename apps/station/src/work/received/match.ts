import type { ReceivedPerson } from '@sthene/contract';
import type { TablePerson } from '@sthene/formats/results-table';

/** Somebody of the lab, as far as matching needs them. */
export interface Known {
  readonly id: string;
  readonly code: string;
  readonly givenName: string;
  readonly familyName: string;
  readonly birthDate?: string;
}

export type Why = ReceivedPerson['candidates'][number]['why'];

/** Who somebody of a table may be: one person surely, several doubtfully, or nobody who is there. */
export interface Match {
  readonly match: 'sure' | 'doubtful' | 'unknown';
  readonly candidates: readonly { readonly person: Known; readonly why: Why }[];
}

/** Without case, accents, hyphens, apostrophes and doubled blanks. */
export const spelling = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[øØ]/g, 'o')
    .replace(/[łŁ]/g, 'l')
    .replace(/[đĐ]/g, 'd')
    .replace(/ß/g, 'ss')
    .replace(/[æÆ]/g, 'ae')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

const plain = (text: string): string => text.normalize('NFC').toLowerCase().replace(/\s+/g, ' ').trim();

/** Every way in which a table may write a name: given name first or last. */
function namesOf(said: TablePerson): string[] {
  const { name, givenName = '', familyName = '' } = said;
  if (name === undefined) return [`${givenName} ${familyName}`.trim()].filter((one) => one !== '');
  const [last, first] = name.split(',').map((part) => part.trim());
  return first ? [`${first} ${last}`, name] : [name];
}

interface Forms {
  readonly plain: readonly string[];
  readonly spelled: readonly string[];
}

/** Names of the people of the lab in both orders, folded once: a table asks for each of them hundreds of times. */
const folded = new WeakMap<Known, Forms>();
function formsOf(person: Known): Forms {
  const known = folded.get(person);
  if (known !== undefined) return known;
  const { givenName, familyName } = person;
  const orders = [`${givenName} ${familyName}`.trim(), `${familyName} ${givenName}`.trim()];
  const forms = { plain: orders.map(plain), spelled: orders.map(spelling) };
  folded.set(person, forms);
  return forms;
}

/**
 * Finds who somebody of a table is: by code, then by full name in either order, then by its spelling without accents and hyphens; a date
 * of birth decides between equals, and speaks against a name it does not fit. Whatever is not certain comes back as a doubt with its why.
 */
export function matchPerson(said: TablePerson, people: readonly Known[]): Match {
  const names = namesOf(said);
  const own = { plain: names.map(plain), spelled: names.map(spelling) };
  const named = (person: Known, form: keyof Forms) => formsOf(person)[form].some((name) => own[form].includes(name));
  const sure = (person: Known, why: Why): Match => ({ match: 'sure', candidates: [{ person, why }] });
  const doubt = (persons: readonly Known[], why: Why): Match => ({
    match: 'doubtful',
    candidates: persons.map((person) => ({ person, why })),
  });
  const sameBirth = (person: Known) => said.birthDate !== undefined && person.birthDate === said.birthDate;
  const otherBirth = (person: Known) =>
    said.birthDate !== undefined && person.birthDate !== undefined && person.birthDate !== said.birthDate;

  const { code } = said;
  const byCode = code === undefined ? undefined : people.find((one) => plain(one.code) === plain(code));
  if (byCode !== undefined) {
    if (otherBirth(byCode)) return doubt([byCode], 'birth-date-differs');
    if (names.length === 0 || named(byCode, 'spelled')) return sure(byCode, 'code');
    const byName = people.filter((one) => one !== byCode && named(one, 'spelled'));
    return {
      match: 'doubtful',
      candidates: [
        { person: byCode, why: 'code-of-another-name' },
        ...byName.map((person) => ({ person, why: 'name' as const })),
      ],
    };
  }
  if (names.length === 0) return { match: 'unknown', candidates: [] };
  for (const form of ['plain', 'spelled'] as const) {
    const found = people.filter((one) => named(one, form));
    const [first] = found;
    if (first === undefined) continue;
    const born = found.filter(sameBirth);
    if (born.length === 1) return sure(born[0] as Known, 'name-and-birth-date');
    if (found.length > 1) return doubt(found, 'same-name-twice');
    if (otherBirth(first)) return doubt(found, 'birth-date-differs');
    return form === 'plain' ? sure(first, 'name') : doubt(found, 'spelled-alike');
  }
  const near = people.flatMap((person) => {
    const why = nearness(own.spelled, person);
    return why === undefined || otherBirth(person) ? [] : [{ person, why }];
  });
  return near.length === 0 ? { match: 'unknown', candidates: [] } : { match: 'doubtful', candidates: near.slice(0, 5) };
}

/** `I. Oakes` for Imre Oakes, or one letter more, less or another. */
function nearness(spelled: readonly string[], person: Known): Why | undefined {
  const given = spelling(person.givenName);
  const family = spelling(person.familyName);
  if (family === '') return undefined;
  for (const words of spelled) {
    const initial = given[0] ?? '';
    if (initial !== '' && [`${initial} ${family}`, `${family} ${initial}`].includes(words)) return 'initial';
    if (words.length >= 6 && formsOf(person).spelled.some((own) => oneLetterApart(own, words))) return 'one-letter';
  }
  return undefined;
}

/** Whether one letter more, less or another makes one text the other. */
export function oneLetterApart(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1 || a === b) return false;
  let i = 0;
  while (i < a.length && a[i] === b[i]) i++;
  const rest =
    a.length > b.length
      ? [a.slice(i + 1), b.slice(i)]
      : a.length < b.length
        ? [a.slice(i), b.slice(i + 1)]
        : [a.slice(i + 1), b.slice(i + 1)];
  return rest[0] === rest[1];
}
