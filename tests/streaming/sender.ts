import { createSocket, type Socket as Datagrams } from 'node:dgram';
import { createServer, type Server, type Socket } from 'node:net';

/**
 * A sender of a stream of the open lab streaming layer, written from the documented bytes alone: it shares nothing with the product's codec, so
 * that a slip in either shows. It can do everything a sender does that goes wrong.
 */
export interface SenderFacts {
  readonly name?: string;
  readonly type?: string;
  readonly sourceId?: string;
  readonly labels?: readonly string[];
  readonly unit?: string;
  readonly format?: 'float32' | 'double64' | 'string' | 'int32' | 'int16' | 'int8' | 'int64';
  readonly rate?: number;
  readonly order?: 'little' | 'big';
  /** Ports it hears queries on; the second one is the port for time, too. */
  readonly queryPort: number;
  /** What its clock reads when it begins, s. */
  readonly clockStart?: number;
  /** Answers queries with the channels, as some do. */
  readonly channelsInAnswer?: boolean;
  /** Answers when it is asked for everything. */
  readonly full?: boolean;
  readonly probes?: boolean;
  /** Sends this instead of the answer to a request for samples. */
  readonly answer?: (uid: string) => string;
  /** Sends this time in its patterns. */
  readonly patternTime?: number;
}

export interface Sent {
  /** s; absent: to be deduced. */
  readonly time?: number;
  readonly values: readonly (number | string)[];
}

const bytesOf = { float32: 4, double64: 8, int32: 4, int16: 2, int8: 1, int64: 8, string: 0 };
let uids = 0;

export class StreamSender {
  readonly facts: Required<Omit<SenderFacts, 'answer'>> & Pick<SenderFacts, 'answer'>;
  uid = '';
  /** Requests for samples as they came. */
  readonly requests: string[] = [];
  readonly queries: string[] = [];
  #query: Datagrams | undefined;
  #service: Datagrams | undefined;
  #data: Server | undefined;
  #receivers = new Set<Socket>();
  #all = new Set<Socket>();
  #began = 0;
  #created = 0;

  constructor(facts: SenderFacts) {
    this.facts = {
      name: 'Fernwater plates',
      type: 'Force',
      sourceId: 'FW-0007',
      labels: ['left', 'right'],
      unit: 'N',
      format: 'float32',
      rate: 1000,
      order: 'little',
      clockStart: 5000,
      channelsInAnswer: false,
      full: true,
      probes: true,
      patternTime: 123456.789,
      ...facts,
    };
  }

  /** Its own clock, s. */
  get clock(): number {
    return this.facts.clockStart + (performance.now() - this.#began) / 1000;
  }

  get receivers(): number {
    return this.#receivers.size;
  }

  /** Offers the stream, each time as a new one. `clockStart`: what its clock reads now, else it goes on. */
  async start(clockStart?: number): Promise<void> {
    this.uid = `7d1f3c52-0000-4000-8000-${String(++uids).padStart(12, '0')}`;
    if (this.#began === 0 || clockStart !== undefined) this.#began = performance.now();
    if (clockStart !== undefined) Object.assign(this.facts, { clockStart });
    this.#created = this.clock;
    this.#data = createServer((socket) => this.#called(socket));
    await new Promise<void>((done) => this.#data?.listen(0, '127.0.0.1', done));
    this.#service = createSocket('udp4');
    this.#service.on('message', (message, from) => this.#asked(message, from.address, from.port));
    await new Promise<void>((done) => this.#service?.bind(0, '127.0.0.1', done));
    this.#query = createSocket({ type: 'udp4', reuseAddr: true });
    this.#query.on('message', (message, from) => this.#asked(message, from.address, from.port));
    await new Promise<void>((done) => this.#query?.bind(this.facts.queryPort, '127.0.0.1', done));
  }

  async stop(): Promise<void> {
    const data = this.#data;
    // First nobody is let in any more: whoever calls again at once would never be cut off.
    const closed = data && new Promise<void>((done) => data.close(() => done()));
    for (const socket of this.#all) socket.destroy();
    this.#receivers.clear();
    this.#all.clear();
    for (const socket of [this.#query, this.#service])
      if (socket !== undefined) await new Promise<void>((done) => socket.close(() => done()));
    await closed;
    this.#query = this.#service = this.#data = undefined;
  }

  /** Cuts everybody off and goes on offering the same stream. */
  hangUp(): void {
    for (const socket of this.#all) socket.destroy();
    this.#receivers.clear();
  }

  /** Sends samples to whoever reads. */
  send(samples: readonly Sent[]): void {
    const bytes = Buffer.concat(samples.map((one) => this.sample(one)));
    for (const socket of this.#receivers) socket.write(bytes);
  }

  /** Sends bytes that are no samples. */
  sendRaw(bytes: Buffer): void {
    for (const socket of this.#receivers) socket.write(bytes);
  }

  sample({ time, values }: Sent): Buffer {
    const little = this.facts.order === 'little';
    const parts: Buffer[] = [Buffer.from([time === undefined ? 1 : 2])];
    if (time !== undefined) {
      const stamp = Buffer.alloc(8);
      if (little) stamp.writeDoubleLE(time);
      else stamp.writeDoubleBE(time);
      parts.push(stamp);
    }
    for (const value of values) parts.push(this.#value(value, little));
    return Buffer.concat(parts);
  }

  #value(value: number | string, little: boolean): Buffer {
    const { format } = this.facts;
    if (format === 'string') {
      const text = Buffer.from(String(value));
      if (text.length < 256) return Buffer.concat([Buffer.from([1, text.length]), text]);
      const length = Buffer.alloc(4);
      if (little) length.writeUInt32LE(text.length);
      else length.writeUInt32BE(text.length);
      return Buffer.concat([Buffer.from([4]), length, text]);
    }
    const out = Buffer.alloc(bytesOf[format]);
    const number = Number(value);
    if (format === 'float32') little ? out.writeFloatLE(number) : out.writeFloatBE(number);
    else if (format === 'double64') little ? out.writeDoubleLE(number) : out.writeDoubleBE(number);
    else if (format === 'int64') little ? out.writeBigInt64LE(BigInt(number)) : out.writeBigInt64BE(BigInt(number));
    else if (format === 'int32') little ? out.writeInt32LE(number) : out.writeInt32BE(number);
    else if (format === 'int16') little ? out.writeInt16LE(number) : out.writeInt16BE(number);
    else out.writeInt8(number);
    return out;
  }

  info(withChannels: boolean): string {
    const { name, type, labels, unit, format, rate, sourceId } = this.facts;
    const port = (server: Server | Datagrams | undefined) => (server?.address() as { port: number } | undefined)?.port;
    const channels = labels.map(
      (label) => `<channel><label>${label}</label><unit>${unit}</unit><type>Force</type></channel>`,
    );
    return [
      '<?xml version="1.0"?>\n<info>\n',
      `\t<name>${name}</name>\n\t<type>${type}</type>\n`,
      `\t<channel_count>${labels.length}</channel_count>\n\t<channel_format>${format}</channel_format>\n`,
      `\t<source_id>${sourceId}</source_id>\n\t<nominal_srate>${rate.toFixed(15)}</nominal_srate>\n`,
      '\t<version>1.1000000000000001</version>\n',
      `\t<created_at>${this.#created}</created_at>\n\t<uid>${this.uid}</uid>\n`,
      '\t<session_id>default</session_id>\n\t<hostname>fernwater-1</hostname>\n',
      `\t<v4address/>\n\t<v4data_port>${port(this.#data)}</v4data_port>\n`,
      `\t<v4service_port>${port(this.#service)}</v4service_port>\n`,
      '\t<v6address/>\n\t<v6data_port>0</v6data_port>\n\t<v6service_port>0</v6service_port>\n',
      withChannels ? `\t<desc><channels>${channels.join('')}</channels></desc>\n` : '\t<desc/>\n',
      '</info>\n',
    ].join('');
  }

  #asked(message: Buffer, address: string, port: number): void {
    const received = this.clock;
    const [kind, second = '', third = ''] = message.toString('latin1').split('\r\n');
    if (kind === 'LSL:shortinfo') {
      this.queries.push(second);
      const [back = '', id = ''] = third.split(' ');
      this.#service?.send(`${id}\r\n${this.info(this.facts.channelsInAnswer)}`, Number(back), address);
    } else if (kind === 'LSL:timedata' && this.facts.probes) {
      const [wave = '', sent = ''] = second.split(' ');
      this.#service?.send(` ${wave} ${sent} ${received} ${this.clock}`, port, address);
    }
  }

  #called(socket: Socket): void {
    this.#all.add(socket);
    let head = '';
    socket.on('error', () => {});
    socket.on('close', () => {
      this.#receivers.delete(socket);
      this.#all.delete(socket);
    });
    socket.on('data', (bytes) => {
      head += bytes.toString('latin1');
      if (head.startsWith('LSL:fullinfo\r\n')) {
        if (this.facts.full) socket.end(this.info(true));
        return;
      }
      if (!head.includes('\r\n\r\n') || this.#receivers.has(socket)) return;
      this.requests.push(head);
      const uid = /^LSL:streamfeed\/110 (\S*)/.exec(head)?.[1];
      if (this.facts.answer !== undefined) socket.write(this.facts.answer(this.uid));
      else if (uid !== this.uid) return void socket.end('LSL/110 404 Not found\r\n\r\n');
      else {
        const order = this.facts.order === 'little' ? 1234 : 4321;
        socket.write(
          `LSL/110 200 OK\r\nUID: ${this.uid}\r\nByte-Order: ${order}\r\nSuppress-Subnormals: 0\r\nData-Protocol-Version: 110\r\n\r\n`,
        );
      }
      const count = this.facts.labels.length;
      for (const begin of [4, 2]) {
        const values = Array.from({ length: count }, (_, k) => (k % 2 === 0 ? 1 : -1) * (k + begin));
        socket.write(this.sample({ time: this.facts.patternTime, values }));
      }
      this.#receivers.add(socket);
    });
  }
}
