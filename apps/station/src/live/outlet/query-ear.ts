import type { Socket } from 'node:dgram';
import type { StreamNetwork } from '@sthene/capture';
import { bindQueries } from './bind.ts';
import type { StreamOffer } from './stream-offer.ts';

/** Hears queries to everybody and passes them on to what is offered. */
export class QueryEar {
  readonly #socket: Socket;

  static async open(network: StreamNetwork, host: string, offers: () => Iterable<StreamOffer>): Promise<QueryEar> {
    return new QueryEar(await bindQueries(network, host), offers);
  }

  private constructor(socket: Socket, offers: () => Iterable<StreamOffer>) {
    this.#socket = socket;
    socket.on('message', (bytes, from) => {
      for (const offer of offers()) offer.query(bytes, from.address);
    });
  }

  close(): Promise<void> {
    return new Promise((done) => this.#socket.close(() => done()));
  }
}
