import type { OutletSettings } from '@sthene/contract';
import type { OpenLab } from '../../labs/open-lab.ts';

const networkKey = 'outlet.network';
const codeKey = 'outlet.athlete-code';
const rigKey = (rig: string) => `outlet.rig.${rig}`;

/** Nothing leaves unless somebody decided so, and then no further than this machine. */
export const usualOutlet: OutletSettings = { network: false, athleteCode: false };

/** What the lab allows; anything but a kept yes is a no. */
export async function readOutlet({ store }: OpenLab): Promise<OutletSettings> {
  const yes = async (key: string) => (await store.settings.get(key))?.value === true;
  return { network: await yes(networkKey), athleteCode: await yes(codeKey) };
}

/** Keeps what the lab allows; each change stands in the audit trail. */
export async function keepOutlet(lab: OpenLab, { network, athleteCode }: OutletSettings, by: string): Promise<void> {
  const actor = await lab.actor(by);
  await lab.store.settings.set(networkKey, network, actor);
  await lab.store.settings.set(codeKey, athleteCode, actor);
}

/** Whether a rig offers what it measures. */
export const readRigOutlet = async ({ store }: OpenLab, rig: string): Promise<boolean> =>
  (await store.settings.get(rigKey(rig)))?.value === true;

export async function keepRigOutlet(lab: OpenLab, rig: string, on: boolean, by: string): Promise<void> {
  await lab.store.settings.set(rigKey(rig), on, await lab.actor(by));
}
