import type { SquadTableRow } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { ordered, orderFrom, pressed } from './order.ts';

const row = (name: string, value?: number): SquadTableRow => ({
  person: { id: name, name, code: name },
  sessions: 1,
  ...(value === undefined ? {} : { value: { value, session: 's', n: 1 } }),
});
const rows = [row('Alder', 3), row('Birch'), row('Cedar', 5), row('Dogwood', 1)];
const names = (text: string) => ordered(rows, orderFrom(text)).map(({ person }) => person.name);

describe('the order of the squad', () => {
  it('by name as it came, and backwards', () => {
    expect(names('name')).toEqual(['Alder', 'Birch', 'Cedar', 'Dogwood']);
    expect(names('-name')).toEqual(['Dogwood', 'Cedar', 'Birch', 'Alder']);
    expect(names('shoe')).toEqual(names('name'));
  });

  it('by a number, whoever has none last from either end', () => {
    expect(names('-value')).toEqual(['Cedar', 'Alder', 'Dogwood', 'Birch']);
    expect(names('value')).toEqual(['Dogwood', 'Alder', 'Cedar', 'Birch']);
  });

  it('turns round when a heading is pressed again', () => {
    expect(pressed(orderFrom(undefined), 'value')).toBe('-value');
    expect(pressed(orderFrom('-value'), 'value')).toBe('value');
    expect(pressed(orderFrom('value'), 'name')).toBe('name');
    expect(pressed(orderFrom('name'), 'name')).toBe('-name');
  });
});
