import type { SquadTableRow } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import type { Gate, Person } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { standingGates } from '../../live/day/gates.ts';

/** The newest position of each person that was written down and not ended on a day. */
export async function positionsOf(lab: OpenLab, day: string): Promise<Map<string, string>> {
  const notes = await lab.store.notes.list({ kind: 'position' });
  return new Map(
    notes
      .filter(({ from, until }) => from <= day && (until === undefined || until >= day))
      .map(({ person, text }) => [person, text]),
  );
}

/** What a test day would allow on a date. */
export function availabilityOf(
  { birthDate }: Person,
  gates: readonly Gate[],
  test: string,
  date: string,
): Pick<SquadTableRow, 'availability'> {
  const protocol = protocolRegistry.get(test);
  if (protocol === undefined) return {};
  return { availability: standingGates({ gates, protocol, birthDate, date }).allowed };
}
