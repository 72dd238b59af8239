import { type VideoSettings, videoSettings } from '@sthene/contract';
import type { OpenLab } from '../labs/open-lab.ts';

const key = 'video';

/** How long videos are kept and who may be filmed; kept for good and with consent where nothing was decided. */
export async function readVideoSettings(lab: OpenLab): Promise<VideoSettings> {
  const kept = await lab.store.settings.get(key);
  return videoSettings.parse(kept?.value ?? {});
}

export async function writeVideoSettings(lab: OpenLab, settings: VideoSettings, by: string): Promise<VideoSettings> {
  await lab.store.settings.set(key, videoSettings.parse(settings), await lab.actor(by));
  return readVideoSettings(lab);
}
