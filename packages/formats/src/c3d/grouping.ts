/** How samples are gathered into 3D frames. */
export interface Grouping {
  readonly samplesPerFrame: number;
  readonly frames: number;
}

/** Largest count a 16-bit word holds while 65535 itself means "look further". */
const mostFrames = 65534;

/**
 * Frames for a recording: one sample a frame while a 16-bit frame count suffices, else the smallest number that divides the
 * samples without a rest, so that no frame has to be padded. The header also counts the analog values of a frame in 16 bits.
 * Where nothing divides (a long prime count), one sample a frame stays and the count goes into POINT:LONG_FRAMES.
 *
 * @param preferred samples per frame of the file the recording came from, kept when it fits
 */
export function groupingOf(sampleCount: number, channels: number, preferred?: number): Grouping {
  const fits = (n: number): boolean =>
    Number.isInteger(n) && n >= 1 && sampleCount % n === 0 && sampleCount / n <= mostFrames && n * channels <= 65535;
  if (preferred !== undefined && fits(preferred)) {
    return { samplesPerFrame: preferred, frames: sampleCount / preferred };
  }
  const most = Math.floor(65535 / Math.max(1, channels));
  for (let n = 1; n <= most; n++) if (fits(n)) return { samplesPerFrame: n, frames: sampleCount / n };
  return { samplesPerFrame: 1, frames: sampleCount };
}
