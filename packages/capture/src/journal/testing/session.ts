import type { JournalFilePort } from '../file-port.ts';
import { openJournal } from '../journal.ts';
import type { JournalOptions } from '../options.ts';
import type { JournalStatus } from '../status.ts';
import { encodedHeader } from './encoded.ts';
import { HandClock } from './hand-clock.ts';

export const folder = '/fernwater/journal';

/** A journal on a port and a clock of the test's, with what it told. */
export async function openTestJournal(port: JournalFilePort, more: Partial<JournalOptions> = {}) {
  const clock = new HandClock();
  const told: JournalStatus[] = [];
  const journal = await openJournal({
    folder,
    port,
    clock,
    timer: clock,
    session: 'fernwater-2026-03-14',
    header: encodedHeader(),
    reserveBytes: 0,
    onStatus: (status) => told.push(status),
    ...more,
  });
  return { journal, clock, told, codes: () => told.map(({ code }) => code) };
}
