import { largestChunk } from '@sthene/contract';
import { ProblemError } from '../server/problem-error.ts';

/** Refusals about videos. Codes are permanent; docs/reference/video.md lists them and a test keeps both equal. */
export const videoProblems = {
  notAllowed: (words: string) =>
    new ProblemError(
      403,
      'video-not-allowed',
      words,
      'Nothing was kept of it. A consent is recorded with the person; films made before it do not come back.',
    ),
  otherTurn: () =>
    new ProblemError(
      409,
      'video-other-turn',
      'The rig is closed, or somebody else is on it.',
      'The device goes on by itself with the next turn.',
    ),
  pieceDiffers: (index: number) =>
    new ProblemError(
      409,
      'video-piece-differs',
      `Piece ${index} of this video is here already, with another content.`,
      'The first one stays. Begin a new video.',
    ),
  pieceDamaged: (index: number) =>
    new ProblemError(
      422,
      'video-piece-damaged',
      `Piece ${index} did not arrive as it was sent.`,
      'Nothing was kept of it. Send it again.',
    ),
  pieceTooLarge: () =>
    new ProblemError(
      413,
      'video-piece-too-large',
      `A piece of a video has at most ${largestChunk / 1048576} MB.`,
      'Send smaller pieces.',
    ),
  piecesMissing: (missing: readonly number[]) =>
    new ProblemError(
      409,
      'video-pieces-missing',
      `Pieces are missing: ${missing.slice(0, 20).join(', ')}${missing.length > 20 ? ', and more' : ''}.`,
      'What has come is safe. Send what is missing, then finish again.',
    ),
  noSpace: () =>
    new ProblemError(
      507,
      'video-no-space',
      'The disk of the station is nearly full, and the rest is for the forces.',
      'Forces are recorded as before. Free some space, or let videos be removed after some days.',
    ),
  closed: (state: string) =>
    new ProblemError(
      409,
      'video-closed',
      `This video takes no more pieces: it is ${state}.`,
      'Nothing was changed. Begin a new video.',
    ),
  gone: () =>
    new ProblemError(
      410,
      'video-dropped',
      'This video was removed.',
      'The trial keeps its curve and values; who removed the video and why stands in the audit trail.',
    ),
  notStored: () =>
    new ProblemError(
      404,
      'video-not-there',
      'There is no film here yet, or none that can be played.',
      'If it is still being sent, wait a moment and look again.',
    ),
  range: () =>
    new ProblemError(416, 'video-range-outside', 'The bytes asked for lie outside the file.', 'Ask for others.'),
  changedMeanwhile: () =>
    new ProblemError(
      409,
      'video-changed-meanwhile',
      'Somebody else has moved this video in the meantime.',
      'Look at it again, then move it from where it is now.',
    ),
} as const;
