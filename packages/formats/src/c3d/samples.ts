import type { RawSamples } from '@sthene/core';
import type { ByteSource } from '../format.ts';
import { readFully } from '../read-fully.ts';
import type { C3dLayout } from './layout.ts';
import { numberReader, type Processor, viewOf } from './numbers.ts';

/** Bytes read at a time; whole frames, so that long recordings do not have to fit into memory twice. */
const chunkBytes = 4 * 1024 * 1024;

/** An empty array of the storage type of the file. */
function storage(layout: C3dLayout, length: number): Float32Array | Int16Array | Uint16Array {
  if (layout.float) return new Float32Array(length);
  return layout.unsigned ? new Uint16Array(length) : new Int16Array(length);
}

/**
 * Reads all analog channels as stored, nothing scaled: one array a channel, in file order.
 *
 * Value of frame f, sample j, channel c lies at `dataOffset + f frameBytes + analogOffset + w (j channels + c)`.
 * The arrays are as long as the frames that the source really delivers.
 *
 * Source: C3D User Guide, data section (c3d.org).
 */
export async function readSamples(source: ByteSource, layout: C3dLayout, processor: Processor): Promise<RawSamples[]> {
  const { channels, samplesPerFrame, frameBytes, analogOffset, float, unsigned } = layout;
  const width = float ? 4 : 2;
  const count = layout.frames * samplesPerFrame;
  const raw = Array.from({ length: channels }, () => storage(layout, count));
  const atOnce = Math.max(1, Math.floor(chunkBytes / frameBytes));
  let done = 0;
  while (done < layout.frames) {
    const wanted = Math.min(atOnce, layout.frames - done);
    const bytes = await readFully(source, layout.dataOffset + done * frameBytes, wanted * frameBytes);
    const frames = Math.floor(bytes.length / frameBytes);
    const read = numberReader(viewOf(bytes), processor);
    const one = float ? read.float32 : unsigned ? read.uint16 : read.int16;
    for (let f = 0; f < frames; f++) {
      let at = f * frameBytes + analogOffset;
      const first = (done + f) * samplesPerFrame;
      for (let j = 0; j < samplesPerFrame; j++) {
        for (let c = 0; c < channels; c++, at += width) (raw[c] as Float32Array)[first + j] = one(at);
      }
    }
    done += frames;
    if (frames < wanted) break;
  }
  return done < layout.frames ? raw.map((samples) => samples.slice(0, done * samplesPerFrame)) : raw;
}
