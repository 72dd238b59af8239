import { call, type Day, type DayDraft, livePath, liveRoutes, routes } from '@sthene/contract';

const params = { lab: 'lab' } as const;
const by = 'Bench';

/** A lab with one rig on a source, and a day of the given plan that is open. */
export interface LiveLab {
  readonly rig: string;
  readonly day: Day;
}

/** Sets a station up for a live day. People are invented, `people` of them, cleared for everything. */
export async function openLiveDay(
  address: string,
  description: object,
  plan: Pick<DayDraft, 'tests' | 'handsFree'>,
  people: number,
): Promise<LiveLab> {
  await call(fetch, address, routes.createLab, { params, body: { name: 'Bench' } });
  const ids: string[] = [];
  for (let i = 0; i < people; i++) {
    const body = { givenName: `Rower ${i + 1}`, familyName: 'Fernwater', birthDate: '1999-04-01' };
    const { id } = (await call(fetch, address, routes.createPerson, { params, body } as never)) as { id: string };
    const gate = { kind: 'screening', granted: true, limb: 'both', from: '2026-01-01', note: '', by } as const;
    await call(fetch, address, liveRoutes.addGate, { params: { ...params, id }, body: gate });
    ids.push(id);
  }
  const source = await call(fetch, address, liveRoutes.createSource, {
    params,
    body: { description: description as never, by },
  });
  const rig = await call(fetch, address, liveRoutes.createRig, {
    params,
    body: { name: 'Rig A', letter: 'A', shape: 'circle', sources: [source.id], notes: '', by },
  });
  const date = new Date().toISOString().slice(0, 10);
  const draft = { date, ...plan, rigs: [rig.id], people: ids, by } as never;
  const planned = await call(fetch, address, liveRoutes.createDay, { params, body: draft });
  const day = await call(fetch, address, liveRoutes.openDay, { params: { ...params, id: planned.id }, body: { by } });
  return { rig: rig.id, day };
}

/** Address of the live connection of a station. */
export const liveUrl = (address: string): string => `${address.replace(/^http/, 'ws')}${livePath}`;

/** First message of a device that looks on; the device is put in by whoever connects. */
export const helloOfViewer = JSON.stringify({ type: 'hello', protocol: 1, lab: 'lab', role: 'viewer' });
