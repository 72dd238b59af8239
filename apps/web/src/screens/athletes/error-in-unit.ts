import type { SquadTable, SquadTableRow } from '@sthene/contract';

/** The error an athlete is judged by, in the unit of the value; zero where it is not known. */
export function errorInUnit({ error, value }: SquadTableRow, scale: SquadTable['scale']): number {
  if (error === undefined || value === undefined) return 0;
  return scale === 'log' ? value.value * Math.expm1(error / 100) : error;
}
