import type { Format } from '../format.ts';
import { WriteRefused } from '../write-refused.ts';
import { detectC3d } from './detect.ts';
import { type C3dReadOptions, readC3d } from './read.ts';
import { writeC3d } from './write.ts';

export type { C3dReadOptions } from './read.ts';
export { type C3dWritten, writeC3d } from './write.ts';

/** C3D: the open file of motion laboratories; force plates and other analog channels are read and written. */
export const c3dFormat: Format<C3dReadOptions> = {
  id: 'c3d',
  title: 'C3D',
  extensions: ['c3d'],
  mediaType: 'application/octet-stream',
  detect: detectC3d,
  read: readC3d,
  write: async (recording) => {
    const written = writeC3d(recording);
    if (!written.ok) throw new WriteRefused(written.error);
    return written.bytes;
  },
};
