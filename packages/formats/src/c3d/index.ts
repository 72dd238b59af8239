import type { Format } from '../format.ts';
import { detectC3d } from './detect.ts';
import { type C3dReadOptions, readC3d } from './read.ts';
import { writeC3d } from './write.ts';

export type { C3dReadOptions } from './read.ts';
export { type C3dWritten, writeC3d } from './write.ts';

/** A refusal to write, thrown because `Format.write` has no other way to say so; `error` is the refusal as data. */
export class C3dWriteRefused extends Error {
  readonly error: Extract<ReturnType<typeof writeC3d>, { ok: false }>['error'];
  constructor(error: C3dWriteRefused['error']) {
    super(error.message);
    this.name = 'C3dWriteRefused';
    this.error = error;
  }
}

/** C3D: the open file of motion laboratories; force plates and other analog channels are read and written. */
export const c3dFormat: Format<C3dReadOptions> = {
  id: 'c3d',
  title: 'C3D',
  extensions: ['.c3d'],
  mediaType: 'application/octet-stream',
  detect: detectC3d,
  read: readC3d,
  write: async (recording) => {
    const written = writeC3d(recording);
    if (!written.ok) throw new C3dWriteRefused(written.error);
    return written.bytes;
  },
};
