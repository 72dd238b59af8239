import { toWall } from '@sthene/contract';
import type { Client, Message, Weight } from './client.ts';

/** Everyone who is connected to a lab; messages are turned into text once for all of them. */
export class Hub {
  readonly #clients = new Set<Client>();

  get clients(): ReadonlySet<Client> {
    return this.#clients;
  }

  add(client: Client): void {
    this.#clients.add(client);
    client.sendSnapshot();
  }

  remove(client: Client): void {
    this.#clients.delete(client);
  }

  /** To operators and viewers. */
  tell(message: Message, weight: Weight): void {
    let text: string | undefined;
    for (const client of this.#clients) {
      if (client.device.role === 'wall') continue;
      text ??= JSON.stringify(message);
      client.offer(text, weight);
    }
  }

  /** To walls. What the wall's own schema does not list is a programming error and is not sent. */
  tellWalls(message: Message, weight: Weight): void {
    let text: string | undefined;
    for (const client of this.#clients) {
      if (client.device.role !== 'wall') continue;
      if (text === undefined) {
        toWall.parse({ ...message, sequence: 0 });
        text = JSON.stringify(message);
      }
      client.offer(text, weight);
    }
  }

  /** To one client alone. */
  answer(client: Client, message: Message): void {
    client.offer(JSON.stringify(message), 'kept');
  }

  closeAll(reason: string): void {
    for (const client of this.#clients) client.close(1001, reason);
    this.#clients.clear();
  }
}
