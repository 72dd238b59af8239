import { type LabId, videoRoutes } from '@sthene/contract';
import type { FastifyInstance } from 'fastify';
import { serveVideo } from '../video/serve-file.ts';
import { dropVideo, nudgeVideo, trialVideos } from '../video/trial-videos.ts';
import type { Station } from '../work/station.ts';
import { register, registerBytes } from './register.ts';

/** Addresses of videos. */
export function registerVideoRoutes(server: FastifyInstance, station: Station): void {
  const live = (params: { lab: LabId }) => station.live(params.lab);
  const r = videoRoutes;

  register(server, r.videoSettings, async ({ params }) => (await live(params)).videos.filming.settings);
  register(server, r.changeVideoSettings, async ({ params, body: { by, ...settings } }) =>
    (await live(params)).videos.changeSettings(settings, by),
  );
  register(server, r.beginVideo, async ({ params, body }) => (await live(params)).videos.begin(params.id, body));
  register(server, r.videoUpload, async ({ params }) => (await live(params)).videos.show(params.id));
  register(server, r.addChunk, async ({ params, query, body }) =>
    (await live(params)).videos.addChunk(params.id, params.index, query.sha256, body),
  );
  register(server, r.finishVideo, async ({ params, body }) =>
    (await live(params)).videos.finish(params.id, body.chunks),
  );
  register(server, r.abandonVideo, async ({ params }) => (await live(params)).videos.abandon(params.id));
  registerBytes(server, r.videoFile, async ({ params, reply }) =>
    serveVideo(await live(params), params.id, reply.request.headers.range, reply),
  );
  register(server, r.trialVideos, async ({ params }) => trialVideos(await live(params), params.id));
  register(server, r.nudgeVideo, async ({ params, body }) => nudgeVideo(await live(params), params.id, body));
  register(server, r.dropVideo, async ({ params, body }) =>
    dropVideo(await live(params), params.id, body.reason, body.by),
  );
}
