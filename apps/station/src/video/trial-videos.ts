import type { TrialVideos, VideoView } from '@sthene/contract';
import type { Video } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { stationActor } from '../labs/open-lab.ts';
import type { LiveLab } from '../live/live-lab.ts';
import { problems } from '../server/problem-error.ts';
import type { VideoFacts } from './facts.ts';
import { filmRuleOf } from './filming.ts';
import { filmsWithoutPlace } from './find-trial.ts';
import { keptUntil } from './keeping.ts';
import { videoProblems } from './problems.ts';

/** Videos of a trial as the Trial screen shows them, also those on their way; none of somebody who may not be filmed. */
export async function trialVideos({ lab, videos }: LiveLab, trial: string): Promise<TrialVideos> {
  const view = await lab.store.trials.view(trial);
  if (view === undefined) throw problems.notFound('trial');
  const all = [...(await lab.store.videos.ofTrial(trial)), ...(await filmsWithoutPlace(lab, trial))];
  for (const video of all) {
    const rule = await filmRuleOf(lab, video, videos.filming.settings, view);
    if (!rule.allowed && video.state !== 'dropped') return { videos: [], refused: rule.words };
  }
  const { keepDays } = videos.filming.settings;
  return { videos: await Promise.all(all.map((video) => videoView(lab, video, keepDays))) };
}

/** Moves a video against its curve by hand; every place it was moved to stays in its history. */
export async function nudgeVideo(
  live: LiveLab,
  id: string,
  { nudge, revision, by }: { nudge: number; revision: number; by: string },
): Promise<VideoView> {
  const video = await shown(live, id);
  if (video.revision !== revision) throw videoProblems.changedMeanwhile();
  const actor = await live.lab.actor(by);
  const moved = await live.lab.store.videos.change(id, { nudge }, actor, { expected: revision, action: 'video.nudge' });
  return videoView(live.lab, moved, live.videos.filming.settings.keepDays);
}

/** Removes the film of a video for good, by name and with a reason. */
export async function dropVideo(live: LiveLab, id: string, reason: string, by: string): Promise<VideoView> {
  const { store } = live.lab;
  const video = await store.videos.get(id);
  if (video === undefined) throw problems.notFound('video');
  if (video.state === 'receiving') await live.videos.abandon(id);
  const dropped = await store.videos.drop(id, reason, await live.lab.actor(by));
  return videoView(live.lab, dropped, live.videos.filming.settings.keepDays);
}

/** A stored video that may be shown; refuses with the reason otherwise. */
export async function shown({ lab, videos }: LiveLab, id: string): Promise<Video & { readonly sha256: string }> {
  const video = await lab.store.videos.get(id);
  if (video === undefined) throw problems.notFound('video');
  if (video.state === 'dropped') throw videoProblems.gone();
  const { sha256 } = video;
  if (video.state !== 'stored' || sha256 === undefined) throw videoProblems.notStored();
  const view = video.trial === undefined ? undefined : await lab.store.trials.view(video.trial);
  const rule = await filmRuleOf(lab, video, videos.filming.settings, view);
  if (!rule.allowed) throw videoProblems.notAllowed(rule.words);
  return { ...video, sha256 };
}

async function videoView(lab: OpenLab, video: Video, keepDays: number | undefined): Promise<VideoView> {
  const facts = video.facts as unknown as VideoFacts;
  const states = await lab.store.revisions.of<Pick<Video, 'nudge'>>('video', video.id);
  const before = states.findLast(({ state }) => state.nudge !== video.nudge)?.state.nudge;
  const last = video.state === 'dropped' ? states.at(-1) : undefined;
  const { width, height, duration, sync } = facts;
  // Whole, but not laid beside its curve yet: for whoever looks it is still on its way.
  const state = video.state === 'stored' && video.trial === undefined ? 'receiving' : video.state;
  return {
    id: video.id,
    revision: video.revision,
    state,
    device: video.device,
    filmedAt: video.filmedAt,
    mediaType: video.mediaType,
    bytes: video.byteCount,
    ...(width === undefined ? {} : { width }),
    ...(height === undefined ? {} : { height }),
    ...(duration === undefined ? {} : { duration }),
    frames: state === 'stored' ? [...(facts.times ?? [])] : [],
    ...(sync === undefined ? {} : { sync: { ...sync } }),
    nudge: video.nudge,
    ...(before === undefined ? {} : { nudgeBefore: before }),
    ...(keepDays === undefined || state !== 'stored' ? {} : { keptUntil: keptUntil(video.filmedAt, keepDays) }),
    ...(video.droppedAt === undefined
      ? {}
      : {
          dropped: {
            at: video.droppedAt,
            words: `${last?.reason ?? ''} (${last === undefined || last.by === stationActor.by ? 'the station' : await lab.nameOf(last.by)})`,
          },
        }),
  };
}
