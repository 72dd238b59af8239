import { protocolRegistry } from '@sthene/core';
import type { OpenLab } from '../../labs/open-lab.ts';

/** Tests of the lab that have sessions with curves, most first. */
export async function testsOfLab(lab: OpenLab): Promise<{ id: string; sessions: number }[]> {
  const counted = await Promise.all(
    protocolRegistry.all.map(async ({ id }) => ({
      id,
      sessions: (await lab.store.sessions.list({ protocol: id, resultsOnly: false, limit: 1 })).total,
    })),
  );
  return counted.filter(({ sessions }) => sessions > 0).sort((a, b) => b.sessions - a.sessions);
}
