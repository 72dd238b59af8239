import type { Socket } from 'node:net';
import {
  feedRequestBegins,
  HeadGatherer,
  patternOffsets,
  protocolVersion,
  readFeedRequest,
  type StreamInfo,
  testPattern,
  writeFeedAnswer,
  writeFeedRefusal,
  writeSamples,
  writeStreamInfo,
} from '@sthene/capture';

/** Somebody who was agreed with and gets samples. */
export interface Receiver {
  readonly socket: Socket;
  readonly order: 'little' | 'big';
}

/** How long a caller may take to say what it wants, ms. */
const patience = 5_000;
const fullInfo = 'LSL:fullinfo';

/**
 * Hears what a caller wants: the stream info in full, or samples of this very stream. Whoever wants something else, speaks another version, or
 * does not say it within five seconds and 8 KiB is sent away.
 */
export function greet(socket: Socket, info: StreamInfo, agreed: (receiver: Receiver) => void): void {
  const head = new HeadGatherer();
  let begun = '';
  socket.on('error', () => {});
  socket.setNoDelay(true);
  const timer = setTimeout(() => socket.destroy(), patience);
  socket.once('close', () => clearTimeout(timer));
  const hear = (bytes: Buffer): void => {
    if (begun.length < fullInfo.length + 2) begun += bytes.toString('latin1', 0, 64);
    if (begun.startsWith(`${fullInfo}\r\n`)) {
      socket.off('data', hear);
      socket.end(writeStreamInfo(info, 'full'));
      return;
    }
    const known = Math.min(begun.length, feedRequestBegins.length);
    const strange =
      !feedRequestBegins.startsWith(begun.slice(0, known)) && !fullInfo.startsWith(begun.slice(0, fullInfo.length));
    const whole = strange ? undefined : head.feed(bytes);
    if (!strange && whole === undefined) return;
    socket.off('data', hear);
    const request = whole?.ok ? readFeedRequest(whole.value.head) : undefined;
    if (request === undefined || !request.ok) return void socket.end(writeFeedRefusal(400));
    const { version, uid, order } = request.value;
    if (Math.floor(version / 100) !== Math.floor(protocolVersion / 100)) return void socket.end(writeFeedRefusal(505));
    if (uid !== info.uid) return void socket.end(writeFeedRefusal(404));
    clearTimeout(timer);
    // What it says from now on is of no interest, but has to be read so that its end is seen.
    socket.resume();
    const { format, channelCount: channels } = info;
    socket.write(writeFeedAnswer({ uid, order, version: protocolVersion }));
    socket.write(
      writeSamples(
        patternOffsets.map((offset) => testPattern({ format, channels }, offset)),
        { format, channels, order },
      ),
    );
    agreed({ socket, order });
  };
  socket.on('data', hear);
}
