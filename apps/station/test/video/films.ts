import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { type ClockTie, encodeChunk, type VideoUpload, videoRoutes } from '@sthene/contract';
import { inLab } from '../live/set-up.ts';
import type { StationUnderTest } from '../station-at.ts';

/** A film of Chromium with the capture times its page saw; see fixtures/make-films.mjs. */
export interface Film {
  readonly mediaType: string;
  readonly startedAt: number;
  readonly stoppedAt: number;
  readonly seen: readonly number[];
  readonly slices: readonly Uint8Array[];
}

/** A film as if it had been started at another time of the device's clock, ms. */
export function filmAt(name: 'vp8' | 'avc', startedAt: number): Film {
  const film = JSON.parse(readFileSync(new URL(`fixtures/${name}.json`, import.meta.url), 'utf8'));
  const shift = startedAt - film.startedAt;
  return {
    mediaType: film.mediaType,
    startedAt,
    stoppedAt: film.stoppedAt + shift,
    seen: film.seen.map((at: number) => at + shift),
    slices: film.slices.map((slice: string) => new Uint8Array(Buffer.from(slice, 'base64'))),
  };
}

/** Sends pieces of films as a device does. */
export function sender(station: StationUnderTest, film: Film, clock: ClockTie) {
  const share = Math.ceil(film.seen.length / film.slices.length);
  const body = (index: number) =>
    encodeChunk(
      {
        frames: film.seen.slice(index * share, (index + 1) * share) as number[],
        clock,
        ...(index === film.slices.length - 1 ? { stoppedAt: film.stoppedAt } : {}),
      },
      film.slices[index] as Uint8Array,
    );
  const put = (id: string, index: number, bytes: Uint8Array<ArrayBuffer>, sha256?: string): Promise<VideoUpload> =>
    station.ask(videoRoutes.addChunk, {
      params: { ...inLab, id, index },
      query: { sha256: sha256 ?? createHash('sha256').update(bytes).digest('hex') },
      bytes,
    });
  return {
    put,
    body,
    send: (id: string, index: number) => put(id, index, body(index)),
    begin: (id: string, rig: string, turn: string) =>
      station.ask(videoRoutes.beginVideo, {
        params: { ...inLab, id },
        body: { rig, turn, device: 'tablet-1-camera', mediaType: film.mediaType, startedAt: film.startedAt },
      }),
    finish: (id: string, chunks = film.slices.length) =>
      station.ask(videoRoutes.finishVideo, { params: { ...inLab, id }, body: { chunks } }),
  };
}
