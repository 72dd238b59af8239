import { addressOf, call, type LabId, type VideoSettings, type VideoView, videoRoutes } from '@sthene/contract';
import { queryOptions, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

/** Films of a trial. One that is still on its way is asked for again. */
export const trialVideosQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['trial-videos', lab, id],
    queryFn: () => call(fetcher, base, videoRoutes.trialVideos, { params: { lab, id } }),
    refetchInterval: ({ state }) => (state.data?.videos.some((one) => one.state === 'receiving') ? 2_000 : false),
  });

/** `asked`: false where this device may not see films. */
export const useTrialVideos = (lab: LabId, id: string, asked: boolean) =>
  useQuery({ ...trialVideosQuery(lab, id), enabled: asked });

/** Address of a film, for the browser's player. */
export const filmAddress = (lab: LabId, id: string): string => addressOf(videoRoutes.videoFile, { lab, id });

export type VideoAct =
  | { kind: 'nudge'; id: string; nudge: number; revision: number; by: string }
  | { kind: 'drop'; id: string; reason: string; by: string };

/** Moves a film against its curve, or removes it. */
export function useVideoAct(lab: LabId, trial: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: ({ kind, id, ...body }: VideoAct): Promise<VideoView> =>
      kind === 'nudge'
        ? call(fetcher, base, videoRoutes.nudgeVideo, { params: { lab, id }, body: body as never })
        : call(fetcher, base, videoRoutes.dropVideo, { params: { lab, id }, body: body as never }),
    onSettled: () => client.invalidateQueries({ queryKey: ['trial-videos', lab, trial] }),
  });
}

const settingsQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['video-settings', lab],
    queryFn: () => call(fetcher, base, videoRoutes.videoSettings, { params: { lab } }),
  });

export const useVideoSettings = (lab: LabId) => useQuery(settingsQuery(lab));

export function useKeepVideoSettings(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (body: VideoSettings & { by: string }) =>
      call(fetcher, base, videoRoutes.changeVideoSettings, { params: { lab }, body }),
    onSuccess: (settings) => client.setQueryData(['video-settings', lab], settings),
  });
}
