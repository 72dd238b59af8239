/** What a seekable file holds. */
export interface Remuxed {
  readonly mediaType: 'video/webm' | 'video/mp4';
  readonly width: number;
  readonly height: number;
  /** Instants of its frames from its start, s, ascending. */
  readonly times: readonly number[];
  /** s. */
  readonly duration: number;
}

/**
 * Writes the frames of a recorder's file into a new one with duration and index; nothing is encoded again. A file that breaks off
 * gives the frames before. Piece by piece: memory does not grow with the file.
 *
 * @returns undefined when no frame can be read
 */
export async function remux(from: string, to: string): Promise<Remuxed | undefined> {
  // Large, and most stations never film.
  const {
    ALL_FORMATS,
    EncodedPacketSink,
    EncodedVideoPacketSource,
    FilePathSource,
    FilePathTarget,
    Input,
    Mp4OutputFormat,
    Output,
    WebMOutputFormat,
  } = await import('mediabunny');
  const input = new Input({ source: new FilePathSource(from), formats: ALL_FORMATS });
  try {
    const track = await input.getPrimaryVideoTrack().catch(() => null);
    if (track === null || track.codec === null) return undefined;
    const mp4 = track.codec === 'avc' || track.codec === 'hevc';
    const decoderConfig = await track.getDecoderConfig();
    if (decoderConfig === null) return undefined;
    const output = new Output({
      format: mp4 ? new Mp4OutputFormat({ fastStart: false }) : new WebMOutputFormat(),
      target: new FilePathTarget(to),
    });
    const source = new EncodedVideoPacketSource(track.codec);
    output.addVideoTrack(source, { rotation: track.rotation });
    await output.start();
    const times: number[] = [];
    let first: number | undefined;
    let end = 0;
    try {
      for await (const packet of new EncodedPacketSink(track).packets()) {
        // A file begins with its first frame, whatever the recorder's clock said then.
        first ??= packet.timestamp;
        const moved = packet.clone({ timestamp: packet.timestamp - first });
        times.push(moved.timestamp);
        end = Math.max(end, moved.timestamp + packet.duration);
        await source.add(moved, { decoderConfig });
      }
    } catch {
      // What broke off is left out; what was read before is whole.
    }
    if (times.length === 0) {
      await output.cancel();
      return undefined;
    }
    await output.finalize();
    times.sort((a, b) => a - b);
    return {
      mediaType: mp4 ? 'video/mp4' : 'video/webm',
      width: track.displayWidth,
      height: track.displayHeight,
      times,
      duration: Math.max(end, times.at(-1) ?? 0),
    };
  } finally {
    input.dispose();
  }
}
