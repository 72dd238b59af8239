import type { AthleteView } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import type { OpenLab } from '../../labs/open-lab.ts';
import type { Circumstances } from './unlike.ts';

type Sessions = AthleteView['sessions'];

/** Adds how each session was set up, and where the method behind the values is another than before. */
export async function setupsAndMethods(
  lab: OpenLab,
  test: string,
  sessions: Sessions,
  circumstances: readonly Circumstances[],
): Promise<Pick<AthleteView, 'sessions' | 'setupFields'>> {
  const names = new Map(
    (await lab.store.methods.list()).map(({ sha256, document }) => [sha256, `${document.name} ${document.version}`]),
  );
  const used = new Set<string>();
  let before = '';
  const found = sessions.map((one, i) => {
    const { session, methods } = circumstances[i] as Circumstances;
    for (const [id, value] of Object.entries(session.setup)) if (value !== '') used.add(id);
    const now = methods.join();
    const changed = before !== '' && now !== '' && now !== before;
    if (now !== '') before = now;
    const newMethod = methods.map((hash) => names.get(hash) ?? hash.slice(0, 8)).join(', ');
    return { ...one, setup: { ...session.setup }, ...(changed ? { newMethod } : {}) };
  });
  const fields = protocolRegistry.get(test)?.setupFields ?? [];
  return {
    sessions: found,
    setupFields: fields
      .filter(({ id }) => used.has(id))
      .map(({ id, title, unit }) => ({ id, title, ...(unit === undefined ? {} : { unit }) })),
  };
}
