import type { Socket } from 'node:dgram';
import type { StreamNetwork } from '@sthene/capture';
import { bindQueries } from './bind.ts';
import type { StreamOffer } from './stream-offer.ts';

/** Most queries that are answered in a second: an answer is longer than a question, and goes where the asker says. */
const mostPerSecond = 50;

/** Hears queries to everybody and passes them on to what is offered. */
export class QueryEar {
  readonly #socket: Socket;
  #second = 0;
  #heard = 0;

  static async open(network: StreamNetwork, host: string, offers: () => Iterable<StreamOffer>): Promise<QueryEar> {
    return new QueryEar(await bindQueries(network, host), offers);
  }

  private constructor(socket: Socket, offers: () => Iterable<StreamOffer>) {
    this.#socket = socket;
    socket.on('message', (bytes, from) => {
      const now = Math.floor(performance.now() / 1000);
      if (now !== this.#second) this.#heard = 0;
      this.#second = now;
      if (++this.#heard > mostPerSecond) return;
      for (const offer of offers()) offer.query(bytes, from.address);
    });
  }

  close(): Promise<void> {
    return new Promise((done) => this.#socket.close(() => done()));
  }
}
