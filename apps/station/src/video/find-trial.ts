import type { TrialOrigin, Video } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import type { StationTime, Sync, VideoFacts } from './facts.ts';

/** The effort a video shows and where it lies in it: of the efforts of its turn on its rig the one it shows the longest part of. */
export async function findTrial(
  lab: OpenLab,
  video: Video,
): Promise<{ readonly trial: string; readonly sync: Sync } | undefined> {
  const { began, duration = 0 } = video.facts as unknown as VideoFacts;
  if (video.entry === undefined || began === undefined) return undefined;
  const film = { start: began.at, end: began.at + 1000 * duration };
  let best: { trial: string; sync: Sync; shown: number } | undefined;
  for (const origin of await lab.store.origins.ofEntry(video.entry)) {
    const { rig, stationTime } = origin.facts as { rig?: string; stationTime?: StationTime };
    if (rig !== video.rig || stationTime === undefined || !(stationTime.end > stationTime.start)) continue;
    const shown = Math.min(film.end, stationTime.end) - Math.max(film.start, stationTime.start);
    if (shown <= 0 || (best !== undefined && shown <= best.shown)) continue;
    const result = await lab.store.results.current(origin.trial);
    if (result === undefined) continue;
    const seconds = (origin.span.end - origin.span.start) / result.document.sampleRate;
    best = { trial: origin.trial, sync: syncOf(began, stationTime, seconds), shown };
  }
  return best;
}

/**
 * Recording time of a video's first frame, and how fast the two run beside each other.
 *
 * @param seconds length of the recording
 */
export function syncOf(began: NonNullable<VideoFacts['began']>, { start, end }: StationTime, seconds: number): Sync {
  const perMs = seconds / (end - start);
  return { start: (began.at - start) * perMs, rate: 1000 * perMs, uncertainty: began.uncertainty * perMs };
}

/**
 * Films that belong to a trial but have no place beside it: on their way, stored a moment ago, or without a picture. They were filmed
 * of the same visit to the same rig, begun before the effort ended and after the one before it; what a film shows exactly is known
 * only when its frames have been placed.
 */
export async function filmsWithoutPlace({ store }: OpenLab, trial: string): Promise<Video[]> {
  const origin = await store.origins.ofTrial(trial);
  if (origin?.entry === undefined) return [];
  const rigOf = ({ facts }: TrialOrigin) => (facts as { rig?: string }).rig;
  const efforts = (await store.origins.ofEntry(origin.entry)).filter((one) => rigOf(one) === rigOf(origin));
  const states = ['receiving', 'stored', 'unreadable'] as const;
  const films = await Promise.all(states.map((state) => store.videos.list({ state, trial: 'none' })));
  return films.flat().filter(
    (film) =>
      film.entry === origin.entry &&
      film.rig === rigOf(origin) &&
      efforts.find(({ endedAt }) => endedAt >= film.filmedAt)?.trial === trial &&
      // One that was stored without the device's clock is never placed.
      (film.state !== 'stored' || (film.facts as unknown as VideoFacts).began !== undefined),
  );
}
