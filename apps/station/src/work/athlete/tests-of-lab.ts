import { protocolRegistry } from '@sthene/core';
import type { OpenLab } from '../../labs/open-lab.ts';

/** Tests of the lab that have sessions with curves, most first. */
export async function testsOfLab(lab: OpenLab): Promise<{ id: string; sessions: number }[]> {
  const counts = await lab.store.sessions.counts({ resultsOnly: false });
  return protocolRegistry.all
    .map(({ id }) => ({
      id,
      sessions: counts.reduce((sum, { protocol, sessions }) => sum + (protocol === id ? sessions : 0), 0),
    }))
    .filter(({ sessions }) => sessions > 0)
    .sort((a, b) => b.sessions - a.sessions);
}
