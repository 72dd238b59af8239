import { type FloorSettings, floorSettings } from '@sthene/contract';
import { stationActor } from '../labs/open-lab.ts';
import type { LiveLab } from './live-lab.ts';

const weightKey = 'floor.body-weight';
const blankKey = 'wall.blank';

/** Body weight is told of known adults, and each screen shows it only when asked to. */
export const usualSettings: FloorSettings = { bodyWeight: 'adults' };

/** Reads what the lab allows, and whether its wall was blank when the station ended. */
export async function loadFloorSettings(live: LiveLab): Promise<void> {
  const { settings } = live.lab.store;
  const kept = floorSettings.safeParse({ bodyWeight: (await settings.get(weightKey))?.value });
  live.allow(kept.success ? kept.data : usualSettings);
  live.blank = (await settings.get<boolean>(blankKey))?.value === true;
}

export async function changeFloorSettings(
  live: LiveLab,
  { bodyWeight, by }: FloorSettings & { readonly by: string },
): Promise<FloorSettings> {
  await live.lab.store.settings.set(weightKey, bodyWeight, await live.lab.actor(by));
  live.allow({ bodyWeight });
  return live.settings;
}

/** A wall that was blank comes back blank, also after the station was restarted. */
export async function keepBlank(live: LiveLab, blank: boolean): Promise<void> {
  await live.lab.store.settings.set(blankKey, blank, stationActor);
}
