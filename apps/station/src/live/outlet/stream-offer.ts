import type { Socket as Datagrams } from 'node:dgram';
import type { AddressInfo, Server, Socket } from 'node:net';
import {
  isQuery,
  isTimeProbe,
  meetsFilter,
  readQuery,
  readTimeProbe,
  readXml,
  type StreamInfo,
  type StreamNetwork,
  type StreamSample,
  valueBytes,
  writeAnswer,
  writeSamples,
  writeStreamInfo,
  writeTimeAnswer,
  type XmlElement,
} from '@sthene/capture';
import { bindService, listenForReceivers } from './bind.ts';
import { greet, type Receiver } from './receiver.ts';

/** What a stream is, before it is known where it is offered. */
export type OfferedStream = Omit<StreamInfo, 'address' | 'dataPort' | 'servicePort'>;

/** Most queries that are heard in a second: an answer is longer than a question, and goes where the asker says. */
const mostPerSecond = 50;
/** Most who are connected for one stream at once, and most that waits for a slow one of them, bytes and seconds. */
const mostReceivers = 16;
const mostWaiting = 4 << 20;
const mostSeconds = 60;

/** One stream that others may read: answers queries and time probes, and sends samples to everybody who was agreed with. */
export class StreamOffer {
  readonly info: StreamInfo;
  readonly #server: Server;
  readonly #service: Datagrams;
  readonly #receivers = new Set<Receiver>();
  /** Everybody who is connected, also those who have not said yet what they want. */
  readonly #callers = new Set<Socket>();
  readonly #root: XmlElement;
  readonly #answer: string;
  readonly #most: number;

  /** @param seconds the clock its stamps are of */
  static async open(
    stream: OfferedStream,
    { network, host, seconds }: { readonly network: StreamNetwork; readonly host: string; seconds(): number },
  ): Promise<StreamOffer> {
    const server = await listenForReceivers(network, host);
    try {
      return new StreamOffer(stream, { server, service: await bindService(network, host), host, seconds });
    } catch (error) {
      server.close();
      throw error;
    }
  }

  private constructor(
    stream: OfferedStream,
    { server, service, host, seconds }: { server: Server; service: Datagrams; host: string; seconds(): number },
  ) {
    this.#server = server;
    this.#service = service;
    this.info = {
      ...stream,
      address: host === '0.0.0.0' ? '' : host,
      dataPort: (server.address() as AddressInfo).port,
      servicePort: service.address().port,
    };
    this.#answer = writeStreamInfo(this.info, 'short');
    const root = readXml(writeStreamInfo(this.info, 'full'));
    if (!root.ok) throw new Error(root.fault.words);
    this.#root = root.value;
    const { rate, channelCount, format } = this.info;
    const perSecond = rate * (1 + channelCount * valueBytes[format]);
    this.#most = rate === 0 ? mostWaiting : Math.min(mostWaiting, mostSeconds * perSecond);
    server.on('connection', (socket) => {
      if (this.#callers.size >= mostReceivers) return void socket.destroy();
      this.#callers.add(socket);
      socket.on('close', () => this.#callers.delete(socket));
      greet(socket, this.info, (receiver) => {
        if (socket.destroyed) return;
        this.#receivers.add(receiver);
        socket.on('close', () => this.#receivers.delete(receiver));
      });
    });
    service.on('message', (bytes, from) => {
      const received = seconds();
      if (isQuery(bytes)) return this.query(bytes, from.address);
      const probe = isTimeProbe(bytes) ? readTimeProbe(bytes) : undefined;
      if (probe?.ok)
        service.send(
          writeTimeAnswer({ ...probe.value, received, answered: seconds() }),
          from.port,
          from.address,
          () => {},
        );
    });
  }

  get receivers(): number {
    return this.#receivers.size;
  }

  #second = 0;
  #answered = 0;

  /** Answers a query that came from an address, if this stream is meant and the question is understood; only so many in a second. */
  query(bytes: Uint8Array, from: string): void {
    const now = Math.floor(performance.now() / 1000);
    if (now !== this.#second) this.#answered = 0;
    this.#second = now;
    if (++this.#answered > mostPerSecond) return;
    const query = readQuery(bytes);
    if (!query.ok || meetsFilter(query.value.filter, this.#root) !== true) return;
    this.#service.send(writeAnswer(query.value.id, this.#answer), query.value.port, from, () => {});
  }

  /**
   * Sends samples, the first of them with its time. Whoever is so slow that more than a minute or 4 MiB waits for it misses them; the next
   * time it is sent shows that.
   */
  send(samples: readonly StreamSample[]): void {
    const { format, channelCount: channels } = this.info;
    const bytes: Partial<Record<Receiver['order'], Uint8Array>> = {};
    for (const { socket, order } of this.#receivers) {
      if (socket.writableLength > this.#most) continue;
      bytes[order] ??= writeSamples(samples, { format, channels, order });
      socket.write(bytes[order]);
    }
  }

  async close(): Promise<void> {
    for (const socket of this.#callers) socket.destroy();
    this.#receivers.clear();
    await Promise.all([
      new Promise<void>((done) => this.#service.close(() => done())),
      new Promise<void>((done) => {
        this.#server.close(() => done());
      }),
    ]);
  }
}
