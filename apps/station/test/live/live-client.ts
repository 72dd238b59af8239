import { type CommandKind, livePath, type ToOperator, type ToStation, toOperator, toWall } from '@sthene/contract';
import WebSocket from 'ws';

type Of<T extends ToOperator['type']> = Extract<ToOperator, { type: T }>;

/** A device at the live interface, as a stranger would write one: it validates everything it is sent. */
export class LiveClient {
  readonly messages: ToOperator[] = [];
  readonly walls: unknown[] = [];
  closed: { readonly code: number } | undefined;
  /** Station clock minus own clock, ms. */
  offset = 0;
  readonly #socket: WebSocket;
  readonly #role: 'operator' | 'wall' | 'viewer';
  #waiting: (() => void)[] = [];
  #commands = 0;

  private constructor(socket: WebSocket, role: 'operator' | 'wall' | 'viewer') {
    this.#socket = socket;
    this.#role = role;
    socket.on('message', (data) => {
      const message: unknown = JSON.parse(String(data));
      if (role === 'wall') this.walls.push(toWall.parse(message));
      else {
        const known = toOperator.parse(message);
        this.messages.push(known);
        if (known.type === 'probe') this.#probed(known);
        this.onMessage(known);
      }
      for (const wake of this.#waiting.splice(0)) wake();
    });
    socket.on('close', (code) => {
      this.closed = { code };
      for (const wake of this.#waiting.splice(0)) wake();
    });
    socket.on('error', () => {});
  }

  onMessage: (message: ToOperator) => void = () => {};

  static async join(
    address: string,
    role: 'operator' | 'wall' | 'viewer',
    device: string,
    onMessage?: (message: ToOperator) => void,
  ): Promise<LiveClient> {
    const socket = new WebSocket(`${address.replace(/^http/, 'ws').replace(/\/$/, '')}${livePath}`);
    const client = new LiveClient(socket, role);
    if (onMessage !== undefined) client.onMessage = onMessage;
    await new Promise<void>((done, failed) => {
      socket.once('open', () => done());
      socket.once('error', failed);
    });
    client.send({ type: 'hello', protocol: 1, lab: 'lab', role, device: { id: device, name: device }, by: 'Rowan' });
    if (role === 'wall') await client.until(() => client.walls.length > 0);
    else await client.next('snapshot');
    return client;
  }

  send(message: ToStation): void {
    this.#socket.send(JSON.stringify(message));
  }

  raw(text: string): void {
    this.#socket.send(text);
  }

  /** Stops reading, as a tablet that fell asleep. */
  stall(): void {
    this.#socket.pause();
  }

  wake(): void {
    this.#socket.resume();
  }

  of<T extends ToOperator['type']>(type: T): Of<T>[] {
    return this.messages.filter((one): one is Of<T> => one.type === type);
  }

  async until(test: () => boolean, seconds = 20): Promise<void> {
    const end = Date.now() + 1000 * seconds;
    while (!test()) {
      if (Date.now() > end) throw new Error(`did not come within ${seconds} s; ${this.#story()}`);
      if (this.closed !== undefined) throw new Error(`the connection was closed with ${this.closed.code}`);
      await new Promise<void>((done) => {
        const timer = setTimeout(done, 100);
        this.#waiting.push(() => {
          clearTimeout(timer);
          done();
        });
      });
    }
  }

  /** What a failure wants to know. */
  #story(): string {
    const alerts = this.of('alert').map(({ alert }) => `${alert.code}: ${alert.words}`);
    const phases = this.of('phase').map(({ floor }) => floor.phase);
    const verdicts = this.of('verdict').map(({ verdict: { person, verdict, reasons } }) => [
      person.code,
      verdict,
      ...reasons.map(({ check }) => check),
    ]);
    return `alerts ${JSON.stringify(alerts)}, verdicts ${JSON.stringify(verdicts)}, last phases ${phases.slice(-12)}`;
  }

  /** The first message of a type after `from` messages; waits for it. */
  async next<T extends ToOperator['type']>(
    type: T,
    test: (message: Of<T>) => boolean = () => true,
    from = 0,
    seconds = 20,
  ): Promise<Of<T>> {
    let found: Of<T> | undefined;
    await this.until(() => {
      found = this.messages.slice(from).find((one): one is Of<T> => one.type === type && test(one as Of<T>));
      return found !== undefined;
    }, seconds);
    return found as Of<T>;
  }

  /**
   * Measures the clocks. Told the result, the station expects this device to say when cues sounded; on plates that run many times
   * faster than time a few milliseconds of a real device would be a second, so such tests keep it to themselves.
   */
  async probe(tell = false): Promise<void> {
    const from = this.messages.length;
    this.send({ type: 'probe', id: 'p1', t0: performance.now() });
    await this.next('probe', () => true, from);
    if (!tell) return;
    this.send({ type: 'probe', id: 'p2', t0: performance.now(), last: { offset: this.offset, roundTrip: 0 } });
    await this.next('probe', ({ id }) => id === 'p2', from);
  }

  #probed({ t0, t1, t2 }: Of<'probe'>): void {
    const t3 = performance.now();
    this.offset = (t1 - t0 + (t2 - t3)) / 2;
  }

  /** The state of a rig as this device was told last. */
  floor(rig: string) {
    for (let i = this.messages.length - 1; i >= 0; i--) {
      const message = this.messages[i] as ToOperator;
      if (message.type === 'phase' && message.floor.rig === rig) return message.floor;
      if (message.type === 'snapshot') return message.floors.find((floor) => floor.rig === rig);
    }
    return undefined;
  }

  /** Gives a command for what this device sees, and waits for the answer. */
  async command(
    rig: string,
    kind: CommandKind,
    more: { late?: number; entry?: string; phase?: string; turn?: string; note?: string } = {},
  ): Promise<Of<'accepted'> | Of<'refused'>> {
    const floor = this.floor(rig);
    const id = `c${++this.#commands}`;
    const from = this.messages.length;
    this.send({
      type: 'command',
      id,
      kind,
      rig,
      ...(floor?.turn === undefined ? {} : { turn: more.turn ?? floor.turn.id }),
      ...(floor?.trial === undefined ? {} : { trial: floor.trial }),
      phase: (more.phase ?? floor?.phase ?? 'waiting') as 'waiting',
      at: performance.now() + this.offset - (more.late ?? 0),
      expires: 1000,
      ...(more.entry === undefined ? {} : { entry: more.entry }),
      ...(more.note === undefined ? {} : { note: more.note }),
    });
    let answer: Of<'accepted'> | Of<'refused'> | undefined;
    await this.until(() => {
      answer = this.messages
        .slice(from)
        .find(
          (one): one is Of<'accepted'> | Of<'refused'> =>
            (one.type === 'accepted' || one.type === 'refused') && one.id === id,
        );
      return answer !== undefined;
    });
    return answer as Of<'accepted'> | Of<'refused'>;
  }

  get role(): string {
    return this.#role;
  }

  close(): void {
    this.#socket.terminate();
  }
}
