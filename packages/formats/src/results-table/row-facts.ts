import { readDay } from './days.ts';
import { type Cell, textOf } from './grid.ts';
import type { ResultsMapping, SoleRole, ValueOf } from './mapping.ts';
import { isMissing } from './numbers.ts';
import type { RefusedCode } from './refused.ts';
import { valueOfText } from './roles.ts';
import type { TablePerson } from './table-results.ts';

/** What a row says besides its values. */
export interface RowFacts {
  readonly who: TablePerson;
  readonly day: string;
  readonly time?: string;
  readonly zone?: string;
  readonly test?: string;
  readonly method?: string;
  readonly position?: number;
  readonly of?: ValueOf;
}

/** A row that cannot be used, and which of its columns says so. */
export interface RowRefused {
  readonly refused: RefusedCode;
  readonly role?: SoleRole;
}

export type Places = ReadonlyMap<SoleRole, number>;

const summary =
  /^((team|squad|group|overall|grand) )?(mean|average|avg\.?|median|sd|s\.d\.|st\.? ?dev\.?|standard deviation|total|sum|min\.?|max\.?|minimum|maximum|cv|count)( ?\(.*\))?$/i;
const longest = 200;

/** Reads whom, when and what a row is about. */
export function rowFacts(
  row: readonly Cell[],
  number: number,
  places: Places,
  mapping: ResultsMapping,
  today: string,
): RowFacts | RowRefused {
  const cellOf = (role: SoleRole): Cell | undefined => {
    const c = places.get(role);
    return c === undefined ? undefined : row[c];
  };
  const said = (role: SoleRole): string => textOf(cellOf(role));
  const who = personOf(said, cellOf('birth-date'), mapping, number);
  if (typeof who === 'string') return { refused: who };
  const day = dayOf(cellOf('date'), mapping);
  if (day === undefined) return { refused: said('date') === '' ? 'row-without-day' : 'day-not-readable', role: 'date' };
  if (day.day > today) return { refused: 'day-in-the-future', role: 'date' };
  const test = places.has('test') ? own(mapping.tests, said('test')) : undefined;
  if (test === '') return { refused: 'test-left-out', role: 'test' };
  const method = places.has('method') ? said('method') : undefined;
  if (method === '') return { refused: 'method-missing', role: 'method' };
  if ((method?.length ?? 0) > longest) return { refused: 'text-too-long', role: 'method' };
  const trial = said('trial');
  const position = trial === '' ? undefined : Number(/^\D*(\d{1,2})(\.0)?$/.exec(trial)?.[1] ?? 0);
  if (position === 0) return { refused: 'trial-not-readable', role: 'trial' };
  const of = said('of') === '' ? undefined : valueOfText(said('of'));
  if (said('of') !== '' && of === undefined) return { refused: 'of-not-known', role: 'of' };
  return {
    who,
    day: day.day,
    ...timeOf(cellOf('time'), day),
    ...(test === undefined ? {} : { test }),
    ...(method === undefined ? {} : { method }),
    ...(position === undefined ? {} : { position }),
    ...(of === undefined ? {} : { of }),
  };
}

/** A member of a record that came from a file: never one of the prototype. */
export const own = (record: Readonly<Record<string, string>>, key: string): string =>
  Object.hasOwn(record, key) ? (record[key] as string) : '';

function dayOf(cell: Cell | undefined, { dayOrder }: ResultsMapping) {
  if (typeof cell === 'object' && cell.day !== undefined)
    return { day: cell.day, ...(cell.time === undefined ? {} : { time: cell.time }) };
  return readDay(textOf(cell), dayOrder);
}

function timeOf(cell: Cell | undefined, day: { time?: string; zone?: string }): { time?: string; zone?: string } {
  const beside =
    typeof cell === 'object' && cell.time !== undefined
      ? cell.time
      : readDay(`2000-01-01 ${textOf(cell)}`, 'ymd')?.time;
  const time = day.time ?? beside;
  return { ...(time === undefined ? {} : { time }), ...(day.zone === undefined ? {} : { zone: day.zone }) };
}

function personOf(
  said: (role: SoleRole) => string,
  birth: Cell | undefined,
  mapping: ResultsMapping,
  row: number,
): TablePerson | RefusedCode {
  const [code, name, given, family] = [said('code'), said('name'), said('given-name'), said('family-name')];
  const parts = [code, name, given, family];
  if (parts.some((text) => summary.test(text))) return 'row-is-a-summary';
  if (parts.every((text) => isMissing(text))) return 'row-without-person';
  if (parts.some((text) => text.length > 100)) return 'text-too-long';
  const birthDate = dayOf(birth, mapping)?.day;
  const sex = sexOf(said('sex'));
  return {
    key: JSON.stringify([...parts, birthDate ?? '']),
    ...(isMissing(code) ? {} : { code }),
    ...(isMissing(name) ? {} : { name }),
    ...(isMissing(given) ? {} : { givenName: given }),
    ...(isMissing(family) ? {} : { familyName: family }),
    ...(birthDate === undefined ? {} : { birthDate }),
    ...(sex === undefined ? {} : { sex }),
    row,
  };
}

function sexOf(text: string): TablePerson['sex'] {
  const word = text.toLowerCase();
  if (/^(f|female|w|woman|women)$/.test(word)) return 'female';
  if (/^(m|male|man|men)$/.test(word)) return 'male';
  return word === 'other' || word === 'x' ? 'other' : undefined;
}
