import { type RigCheckSettings, rigCheckSettings } from '@sthene/contract';
import { gravityEntered, usualAirDensity, usualInterval } from '@sthene/core';
import type { OpenLab } from '../../labs/open-lab.ts';

const key = 'rig.check';

/** What a lab begins with: no masses, the limits of the project, a yearly check, a word where one is overdue. */
const usual = (lab: OpenLab): RigCheckSettings => ({
  limits: {},
  interval: usualInterval,
  overdue: 'warn',
  gravity: gravityEntered(lab.gravity),
  airDensity: usualAirDensity,
  masses: [],
});

export async function showCheckSettings(lab: OpenLab): Promise<RigCheckSettings> {
  const kept = rigCheckSettings.safeParse((await lab.store.settings.get(key))?.value);
  return kept.success ? kept.data : usual(lab);
}

/** Keeps what the lab decided; every state of it stays in the history of settings. */
export async function changeCheckSettings(
  lab: OpenLab,
  { by, ...settings }: RigCheckSettings & { readonly by: string },
): Promise<RigCheckSettings> {
  await lab.store.settings.set(key, JSON.parse(JSON.stringify(settings)), await lab.actor(by));
  return settings;
}
