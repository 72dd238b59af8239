import { z } from 'zod';
import { labId } from './lab.ts';
import type { Route } from './routes.ts';
import {
  nudgeDraft,
  trialVideos,
  videoDraft,
  videoDrop,
  videoFinish,
  videoId,
  videoSettings,
  videoUpload,
  videoView,
} from './video.ts';

const route = <P, Q, B, R>(definition: Route<P, Q, B, R>): Route<P, Q, B, R> => definition;

const inLab = z.object({ lab: labId });
const inLabById = z.object({ lab: labId, id: videoId });

/** Routes of videos: a device films and uploads, the Trial screen plays, a person moves or removes. */
export const videoRoutes = {
  videoSettings: route({
    method: 'GET',
    path: '/api/labs/:lab/video-settings',
    summary: 'How long videos are kept, and who may be filmed',
    params: inLab,
    response: videoSettings,
  }),
  changeVideoSettings: route({
    method: 'PUT',
    path: '/api/labs/:lab/video-settings',
    summary: 'Decide how long videos are kept, and who may be filmed',
    params: inLab,
    body: videoSettings.extend({ by: z.string().min(1).max(100) }),
    response: videoSettings,
  }),
  beginVideo: route({
    method: 'PUT',
    path: '/api/labs/:lab/videos/:id',
    summary: 'Begin a video of the turn at a rig; the same again changes nothing',
    params: inLabById,
    body: videoDraft,
    response: videoUpload,
  }),
  videoUpload: route({
    method: 'GET',
    path: '/api/labs/:lab/videos/:id',
    summary: 'Which pieces of a video are safe on disk',
    params: inLabById,
    response: videoUpload,
  }),
  addChunk: route({
    method: 'PUT',
    path: '/api/labs/:lab/videos/:id/chunks/:index',
    summary: 'One piece of a video with its frame times, as raw bytes; the same again changes nothing',
    params: inLabById.extend({ index: z.coerce.number().int().min(0).max(99_999) }),
    query: z.object({
      /** SHA-256 of the whole body. */
      sha256: z.string().regex(/^[0-9a-f]{64}$/),
    }),
    response: videoUpload,
  }),
  finishVideo: route({
    method: 'POST',
    path: '/api/labs/:lab/videos/:id/finish',
    summary: 'All pieces were sent: put them together, make the file seekable, find its trial',
    params: inLabById,
    body: videoFinish,
    response: videoUpload,
  }),
  abandonVideo: route({
    method: 'DELETE',
    path: '/api/labs/:lab/videos/:id',
    summary: 'Give up a video that is still being received: no effort came',
    params: inLabById,
    response: z.object({ abandoned: z.boolean() }),
  }),
  videoFile: route({
    method: 'GET',
    path: '/api/labs/:lab/videos/:id/file',
    summary: 'The film itself; byte ranges are served',
    params: inLabById,
  }),
  trialVideos: route({
    method: 'GET',
    path: '/api/labs/:lab/trials/:id/videos',
    summary: 'Videos of a trial',
    params: z.object({ lab: labId, id: z.string() }),
    response: trialVideos,
  }),
  nudgeVideo: route({
    method: 'PUT',
    path: '/api/labs/:lab/videos/:id/nudge',
    summary: 'Move a video against its curve by hand',
    params: inLabById,
    body: nudgeDraft,
    response: videoView,
  }),
  dropVideo: route({
    method: 'POST',
    path: '/api/labs/:lab/videos/:id/drop',
    summary: 'Remove the film for good; that it was there stays known',
    params: inLabById,
    body: videoDrop,
    response: videoView,
  }),
};
