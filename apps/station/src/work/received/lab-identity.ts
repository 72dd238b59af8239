import { randomUUID } from 'node:crypto';
import { type OpenLab, stationActor } from '../../labs/open-lab.ts';

/** Random id of a lab, which its exchange files carry; made when it is first needed. */
export async function labIdentity({ store }: OpenLab): Promise<string> {
  const known = await store.settings.get<string>('lab.exchange-id');
  return known?.value ?? (await store.settings.set('lab.exchange-id', randomUUID() as string, stationActor)).value;
}
