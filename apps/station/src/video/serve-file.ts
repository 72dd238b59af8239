import { Readable } from 'node:stream';
import type { FastifyReply } from 'fastify';
import type { LiveLab } from '../live/live-lab.ts';
import { videoProblems } from './problems.ts';
import { shown } from './trial-videos.ts';

/** Sends a film or the part of it that was asked for, straight from the disk. */
export async function serveVideo(
  live: LiveLab,
  id: string,
  asked: string | undefined,
  reply: FastifyReply,
): Promise<FastifyReply> {
  const video = await shown(live, id);
  const file = await live.lab.store.files.open(video.sha256);
  if (file === undefined) throw videoProblems.notStored();
  const range = rangeOf(asked, file.byteCount);
  if (range === 'outside') {
    reply.header('content-range', `bytes */${file.byteCount}`);
    throw videoProblems.range();
  }
  const pieces = await file.pieces(range);
  if (pieces === undefined) throw videoProblems.notStored();
  reply
    .type(video.mediaType)
    .header('accept-ranges', 'bytes')
    .header('etag', `"${video.sha256}"`)
    .header('content-length', range === undefined ? file.byteCount : range.last - range.first + 1);
  if (range !== undefined)
    reply.code(206).header('content-range', `bytes ${range.first}-${range.last}/${file.byteCount}`);
  return reply.send(Readable.from(pieces));
}

/**
 * The one range of a Range header (RFC 9110, section 14); undefined where there is none that has to be followed, as several at once.
 */
export function rangeOf(
  header: string | undefined,
  length: number,
): { readonly first: number; readonly last: number } | 'outside' | undefined {
  const [, from, to] = /^bytes=(\d*)-(\d*)$/.exec(header?.trim() ?? '') ?? [];
  if (from === undefined || to === undefined || (from === '' && to === '')) return undefined;
  if (from === '') {
    const last = Math.min(Number(to), length);
    return last === 0 ? 'outside' : { first: length - last, last: length - 1 };
  }
  const first = Number(from);
  const last = to === '' ? length - 1 : Math.min(Number(to), length - 1);
  if (to !== '' && Number(to) < first) return undefined;
  return first >= length ? 'outside' : { first, last };
}
