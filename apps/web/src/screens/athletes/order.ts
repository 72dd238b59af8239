import type { SquadTableRow } from '@sthene/contract';

/** Columns the table can be sorted by. */
export const sorts = ['name', 'value', 'z', 'change', 'last'] as const;
export type Sort = (typeof sorts)[number];

/** What is looked at, and from which end. */
export interface Order {
  readonly by: Sort;
  readonly down: boolean;
}

/** An order as the address writes it: the column, with a minus from the largest down. */
export function orderFrom(text: string | undefined): Order {
  const down = text?.startsWith('-') === true;
  const by = sorts.find((one) => one === text?.replace(/^-/, ''));
  return by === undefined ? { by: 'name', down: false } : { by, down };
}

/** The next order when a heading is pressed: numbers from the largest down first, names from the first up. */
export function pressed(now: Order, by: Sort): string {
  const down = now.by === by ? !now.down : by !== 'name';
  return `${down ? '-' : ''}${by}`;
}

const numbers: Readonly<Record<Exclude<Sort, 'name'>, (row: SquadTableRow) => number | undefined>> = {
  value: ({ value }) => value?.value,
  z: ({ z }) => z?.value,
  change: ({ change }) => change?.percent ?? change?.difference,
  last: ({ last }) => (last === undefined ? undefined : Date.parse(last)),
};

/** Rows in an order; those without the number stay at the end, as they came. */
export function ordered(rows: readonly SquadTableRow[], { by, down }: Order): readonly SquadTableRow[] {
  if (by === 'name') return down ? rows.toReversed() : rows;
  const number = numbers[by];
  const sign = down ? -1 : 1;
  return rows.toSorted((a, b) => {
    const [x, y] = [number(a), number(b)];
    if (x === undefined || y === undefined) return Number(x === undefined) - Number(y === undefined);
    return sign * (x - y);
  });
}
