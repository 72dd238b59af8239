import type { SquadTableRow } from '@sthene/contract';

/** What the list is narrowed to. */
export interface Filter {
  readonly text: string;
  readonly position?: string | undefined;
  readonly may?: string | undefined;
}

/** Every word somewhere in name or code; the position; what may be pulled today. */
export function fits({ person, position, availability }: SquadTableRow, filter: Filter): boolean {
  const all = `${person.name} ${person.code}`.toLowerCase();
  const words = filter.text.toLowerCase().split(/\s+/);
  return (
    words.every((word) => all.includes(word)) &&
    (!filter.position || position === filter.position) &&
    (!filter.may || limitOf(availability) === filter.may)
  );
}

/** Three answers to choose from. */
const limitOf = (availability: SquadTableRow['availability']) =>
  availability === 'submaximal' || availability === 'after-answers' ? 'limited' : availability;

export const positionsOf = (rows: readonly SquadTableRow[]): readonly string[] =>
  [...new Set(rows.flatMap(({ position }) => position ?? []))].sort();
