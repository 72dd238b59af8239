import { createRig, nodeJournalPort } from '@sthene/capture';
import { systemClock } from './clock.ts';
import type { LivePorts } from './ports.ts';
import { rigJournal } from './rig/open-journal.ts';
import { unfinishedCaptures } from './unfinished.ts';

/** Paces virtual sources by the station's own timer. */
const schedule = (tick: () => void, everyMilliseconds: number) => {
  const timer = setInterval(tick, everyMilliseconds);
  return () => clearInterval(timer);
};

/** The ports of a real station: this machine's clocks, devices and disk. */
export const stationPorts: LivePorts = {
  clock: systemClock,
  createSource: (rig, descriptions, scripts) =>
    createRig(descriptions, { id: rig, clock: systemClock, schedule, ...(scripts === undefined ? {} : { scripts }) }),
  openJournal: (folder, about) => rigJournal({ folder, port: nodeJournalPort, clock: systemClock, ...about }),
  unfinished: (folder, ids) => unfinishedCaptures(nodeJournalPort, folder, ids),
};
