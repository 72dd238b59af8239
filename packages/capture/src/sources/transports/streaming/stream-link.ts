import { connect, type Socket } from 'node:net';
import { hostname } from 'node:os';
import type { CaptureClock } from '../../../clock/clock.ts';
import type { ClockOffset } from '../../../streaming/clock-offset.ts';
import { Feed } from '../../../streaming/feed.ts';
import { writeFeedRequest } from '../../../streaming/feed-head.ts';
import { protocolVersion, valueBytes } from '../../../streaming/protocol.ts';
import type { StreamFaultCode } from '../../../streaming/stream-fault.ts';
import type { StreamInfo } from '../../../streaming/stream-info.ts';
import type { Damage, Run } from '../../codec/run.ts';
import type { SourceDescription, StreamTransport } from '../../description.ts';
import { retryMilliseconds } from '../../link.ts';
import { type LinkTroubleCode, troubleOf } from '../../link-trouble.ts';
import { chooseStream, differs, identityOf } from './choose-stream.ts';
import { type FoundStream, findStreams } from './find-streams.ts';
import { fullInfo } from './full-info.ts';
import { type StreamNetwork, usualStreamNetwork } from './network.ts';
import { TimeProber } from './time-prober.ts';

/** What a link to a stream tells. After `closed` nothing comes until the next `opened`. */
export interface StreamEvents {
  opened(info: StreamInfo): void;
  run(run: Run): void;
  damage(damage: Damage): void;
  closed(reason: string, trouble: LinkTroubleCode): void;
  wrongDevice(words: string): void;
  /** After each burst of time probes; undefined where too few were answered. */
  clock(offset: ClockOffset | undefined): void;
}

export interface StreamLink {
  /** Resolves when it has been tried once; a first failure is told by `closed`. */
  start(events: StreamEvents): Promise<void>;
  stop(): Promise<void>;
}

/** Described by a stream. */
export type StreamDescription = Pick<SourceDescription, 'channels' | 'rate'> & { readonly transport: StreamTransport };

/** How long answers are awaited where it is not known who will answer, s; and how long a connection may take, ms. */
const seek = 1;
const deadAfter = 5_000;
/** After so long a silence it is asked whether the sender has begun anew meanwhile, ms. */
const askAgainAfter = 5_000;
/** Seconds of samples a sender may hold back for this receiver. */
const heldBack = 360;

const troubles: Partial<Readonly<Record<StreamFaultCode, LinkTroubleCode>>> = {
  'stream-not-there': 'source-stream-missing',
  'stream-version-refused': 'source-stream-refused',
  'stream-refused': 'source-stream-refused',
};

/** Finds a stream, reads it, and finds it again by its source id when it is gone: over the same link, whatever address it then has. */
export function streamLink(
  description: StreamDescription,
  clock: CaptureClock,
  network: StreamNetwork = usualStreamNetwork,
): StreamLink {
  const { transport } = description;
  const { host, port } = transport;
  let stopped = false;
  let known: string | undefined;
  /** Channels of the stream that was read first: where the description names none, they are its channels from then on. */
  let channels: number | undefined;
  let socket: Socket | undefined;
  let prober: TimeProber | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let watching: ReturnType<typeof setInterval> | undefined;

  const seekOne = (seconds: number) => {
    const sure = known !== undefined || transport.sourceId !== undefined;
    const enough = (found: readonly FoundStream[]) => sure && 'stream' in chooseStream(found, transport, known);
    return findStreams({ host, port, network, seconds, enough });
  };

  const attempt = async (events: StreamEvents): Promise<void> => {
    const again = () => {
      if (!stopped) timer = setTimeout(() => void attempt(events), retryMilliseconds);
    };
    const { streams, failed } = await seekOne(seek);
    if (stopped) return;
    const chosen = chooseStream(streams, transport, known);
    if ('wrongDevice' in chosen) {
      events.wrongDevice(chosen.wrongDevice);
      return again();
    }
    if (!('stream' in chosen)) {
      if (failed === undefined) events.closed(chosen.words, chosen.trouble);
      else events.closed(`Nobody could be asked: ${failed.message}.`, troubleOf(failed));
      return again();
    }
    const info =
      transport.labels === undefined && description.channels.length > 0
        ? chosen.stream.info
        : await fullInfo(chosen.stream);
    if (stopped) return;
    const difference =
      channels === undefined || channels === info.channelCount
        ? differs(info, description)
        : `The stream has ${info.channelCount} channels now, not ${channels}.`;
    if (difference !== undefined) {
      events.closed(difference, 'source-stream-differs');
      return again();
    }
    await carry({ info, address: chosen.stream.address }, events, again);
  };

  const carry = ({ info, address }: FoundStream, events: StreamEvents, again: () => void): Promise<void> =>
    new Promise((tried) => {
      let reason = 'The sender closed the connection.';
      let trouble: LinkTroubleCode = 'source-link-failed';
      const now = () => Number(clock.monotonic()) / 1e6;
      let heard = now();
      let open = false;
      const calling = connect({ host: address, port: info.dataPort });
      socket = calling;
      const end = (words: string, why: LinkTroubleCode): void => {
        reason = words;
        trouble = why;
        calling.destroy();
      };
      const feed = new Feed(info, {
        opened() {
          open = true;
          known ??= identityOf(info);
          channels ??= info.channelCount;
          calling.setTimeout(0);
          prober = new TimeProber({ address, port: info.servicePort }, clock, (offset) => events.clock(offset));
          prober.start();
          events.opened(info);
          tried();
        },
        run: (run) => events.run(run),
        damage: (damage) => events.damage(damage),
        fault: ({ code, words }) => end(words, troubles[code] ?? 'source-stream-broken'),
      });
      calling.setTimeout(deadAfter, () => {
        if (!open) end(`${address}:${info.dataPort} does not answer.`, 'source-no-answer');
      });
      calling.on('connect', () => {
        calling.setNoDelay(true);
        calling.setKeepAlive(true, deadAfter);
        calling.write(requestOf(info));
      });
      calling.on('data', (bytes) => {
        heard = now();
        feed.feed(bytes);
      });
      calling.on('error', (error) => {
        reason = `The connection failed: ${error.message}.`;
        trouble = open ? 'source-link-failed' : troubleOf(error);
      });
      let asking = false;
      watching = setInterval(async () => {
        if (!open || asking || now() - heard < askAgainAfter) return;
        asking = true;
        const found = chooseStream((await seekOne(seek)).streams, transport, known);
        asking = false;
        heard = Math.max(heard, now() - askAgainAfter / 2);
        if ('stream' in found && found.stream.info.uid !== info.uid)
          end('The sender began anew.', 'source-link-failed');
      }, 1000);
      calling.on('close', () => {
        clearInterval(watching);
        prober?.stop();
        prober = undefined;
        tried();
        if (stopped) return;
        events.closed(reason, trouble);
        again();
      });
    });

  return {
    start: attempt,
    async stop() {
      stopped = true;
      clearTimeout(timer);
      clearInterval(watching);
      prober?.stop();
      prober = undefined;
      socket?.destroy();
    },
  };
}

const requestOf = (info: StreamInfo): Uint8Array =>
  writeFeedRequest({
    version: protocolVersion,
    uid: info.uid,
    order: 'little',
    valueBytes: valueBytes[info.format],
    buffer: heldBack,
    chunk: 0,
    hostname: hostname(),
    sourceId: info.sourceId,
    sessionId: info.sessionId,
  });
