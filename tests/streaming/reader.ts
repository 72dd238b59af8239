import { createSocket } from 'node:dgram';
import { connect, type Socket } from 'node:net';

/**
 * A receiver of streams of the open lab streaming layer, written from the documented bytes alone: it shares nothing with the product's codec. It
 * compares the two patterns as strictly as a receiver may, and loses step at the first byte that is wrong.
 */
export interface Found {
  readonly xml: string;
  readonly uid: string;
  readonly name: string;
  readonly type: string;
  readonly sourceId: string;
  readonly channels: number;
  readonly format: string;
  readonly rate: number;
  readonly dataPort: number;
  readonly servicePort: number;
}

const field = (xml: string, name: string): string => new RegExp(`<${name}>([^<]*)</${name}>`).exec(xml)?.[1] ?? '';

export const foundIn = (xml: string): Found => ({
  xml,
  uid: field(xml, 'uid'),
  name: field(xml, 'name'),
  type: field(xml, 'type'),
  sourceId: field(xml, 'source_id'),
  channels: Number(field(xml, 'channel_count')),
  format: field(xml, 'channel_format'),
  rate: Number(field(xml, 'nominal_srate')),
  dataPort: Number(field(xml, 'v4data_port')),
  servicePort: Number(field(xml, 'v4service_port')),
});

/** Asks at a port of an address who has streams that meet a condition. */
export async function find(port: number, filter = '', milliseconds = 400, address = '127.0.0.1'): Promise<Found[]> {
  const socket = createSocket('udp4');
  const answers: string[] = [];
  const id = String(Math.floor(Math.random() * 2 ** 31));
  socket.on('message', (message) => {
    const text = message.toString('utf8');
    if (text.startsWith(`${id}\r\n`)) answers.push(text.slice(id.length + 2));
  });
  await new Promise<void>((done) => socket.bind(0, '0.0.0.0', done));
  socket.send(`LSL:shortinfo\r\n${filter}\r\n${socket.address().port} ${id}\r\n`, port, address);
  await new Promise((done) => setTimeout(done, milliseconds));
  await new Promise<void>((done) => socket.close(() => done()));
  return answers.map(foundIn);
}

/** What a sender answers to one line over its port for samples. */
export function ask(port: number, line: string): Promise<string> {
  return new Promise((done) => {
    let text = '';
    const socket = connect(port, '127.0.0.1', () => socket.write(line));
    socket.on('data', (bytes) => {
      text += bytes.toString('utf8');
    });
    socket.on('error', () => {});
    socket.on('close', () => done(text));
  });
}

/** Offset of the sender's clock to this one by the fastest of some probes, s: sender minus own. */
export async function clockOf(port: number, own: () => number): Promise<{ offset: number; roundTrip: number }> {
  const socket = createSocket('udp4');
  const times: { offset: number; roundTrip: number }[] = [];
  socket.on('message', (message) => {
    const t3 = own();
    const [wave, t0 = 0, t1 = 0, t2 = 0] = message.toString('latin1').trim().split(' ').map(Number);
    if (wave === 9) times.push({ offset: (t1 - t0 + (t2 - t3)) / 2, roundTrip: t3 - t0 - (t2 - t1) });
  });
  await new Promise<void>((done) => socket.bind(0, '127.0.0.1', done));
  for (let i = 0; i < 8; i++) {
    socket.send(`LSL:timedata\r\n9 ${own()}\r\n`, port, '127.0.0.1');
    await new Promise((done) => setTimeout(done, 30));
  }
  await new Promise<void>((done) => socket.close(() => done()));
  return times.reduce((best, one) => (one.roundTrip < best.roundTrip ? one : best));
}

export interface Row {
  readonly time: number;
  /** False: the time was deduced. */
  readonly stamped: boolean;
  readonly values: readonly (number | string)[];
}

/** A connection for samples. */
export class StreamReader {
  readonly rows: Row[] = [];
  /** The lines before the samples. */
  head = '';
  wrong = '';
  closed = false;
  readonly #found: Found;
  readonly #big: boolean;
  readonly #socket: Socket;
  #bytes = Buffer.alloc(0);
  #patterns = 0;
  #last = 0;

  constructor(found: Found, { big = false, uid = found.uid, version = '110' } = {}) {
    this.#found = found;
    this.#big = big;
    this.#socket = connect(found.dataPort, '127.0.0.1', () => {
      this.#socket.write(
        [
          `LSL:streamfeed/${version} ${uid}`,
          `Native-Byte-Order: ${big ? 4321 : 1234}`,
          'Has-IEEE754-Floats: 1',
          'Supports-Subnormals: 1',
          'Value-Size: 4',
          'Data-Protocol-Version: 110',
          'Max-Buffer-Length: 360',
          'Max-Chunk-Length: 0',
          'Hostname: a-test',
          'Source-Id: ',
          'Session-Id: default',
          '',
          '',
        ].join('\r\n'),
      );
    });
    this.#socket.on('error', () => {});
    this.#socket.on('close', () => {
      this.closed = true;
    });
    this.#socket.on('data', (bytes) => this.#hear(bytes));
  }

  /** Reads nothing any more, and yet does not hang up. */
  stall(): void {
    this.#socket.pause();
  }

  goOn(): void {
    this.#socket.resume();
  }

  close(): void {
    this.#socket.destroy();
  }

  async until(what: string, when: () => boolean, milliseconds = 10_000): Promise<void> {
    const end = performance.now() + milliseconds;
    while (!when()) {
      if (this.wrong !== '') throw new Error(this.wrong);
      if (performance.now() > end) throw new Error(`waited ${milliseconds} ms for ${what}; ${this.rows.length} rows`);
      await new Promise((done) => setTimeout(done, 10));
    }
  }

  #hear(bytes: Buffer): void {
    this.#bytes = Buffer.concat([this.#bytes, bytes]);
    if (this.head === '') {
      const end = this.#bytes.indexOf('\r\n\r\n');
      if (end < 0) return;
      this.head = this.#bytes.toString('latin1', 0, end);
      this.#bytes = this.#bytes.subarray(end + 4);
    }
    if (!this.head.includes(' 200 ')) return;
    let at = 0;
    while (this.wrong === '') {
      const next = this.#one(at);
      if (next === undefined) break;
      at = next;
    }
    this.#bytes = this.#bytes.subarray(at);
  }

  #one(start: number): number | undefined {
    const bytes = this.#bytes;
    const tag = bytes[start];
    if (tag === undefined) return undefined;
    if (tag !== 1 && tag !== 2) {
      this.wrong = `a sample begins with ${tag}`;
      return undefined;
    }
    let at = start + 1;
    if (tag === 2 && at + 8 > bytes.length) return undefined;
    let time = this.#last + (this.#found.rate > 0 ? 1 / this.#found.rate : 0);
    if (tag === 2) {
      time = this.#big ? bytes.readDoubleBE(at) : bytes.readDoubleLE(at);
      at += 8;
    }
    const values: (number | string)[] = [];
    for (let c = 0; c < this.#found.channels; c++) {
      if (this.#found.format === 'float32') {
        if (at + 4 > bytes.length) return undefined;
        values.push(this.#big ? bytes.readFloatBE(at) : bytes.readFloatLE(at));
        at += 4;
      } else {
        const width = bytes[at];
        if (width === undefined) return undefined;
        if (at + 1 + width > bytes.length) return undefined;
        const length =
          width === 1 ? bytes.readUInt8(at + 1) : this.#big ? bytes.readUInt32BE(at + 1) : bytes.readUInt32LE(at + 1);
        at += 1 + width;
        if (at + length > bytes.length) return undefined;
        values.push(bytes.toString('utf8', at, at + length));
        at += length;
      }
    }
    this.#last = time;
    if (this.#patterns < 2) this.#pattern(time, values);
    else this.rows.push({ time, stamped: tag === 2, values });
    return at;
  }

  /** Values of the patterns: k + 4, then k + 2, with the signs + and - in turn; of texts k + 10. The offsets are from memory. */
  #pattern(time: number, values: readonly (number | string)[]): void {
    const begin = [4, 2][this.#patterns++] ?? 0;
    const expected = values.map((value, k) =>
      typeof value === 'string' ? String((k % 2 === 0 ? 1 : -1) * (k + 10)) : (k % 2 === 0 ? 1 : -1) * (k + begin),
    );
    if (time !== 123456.789 || JSON.stringify(values) !== JSON.stringify(expected))
      this.wrong = `pattern ${this.#patterns} is ${time} ${JSON.stringify(values)}`;
  }
}
