import { createServer, type Server, type Socket } from 'node:net';
import { simulatePull } from '@sthene/core';
import { afterEach, describe, expect, it } from 'vitest';
import { encoderOf } from '../../src/sources/codec/index.ts';
import type { LineLayout, SourceDescription, Transport } from '../../src/sources/description.ts';
import { linkOf } from '../../src/sources/link-of.ts';
import { troubleOf } from '../../src/sources/link-trouble.ts';
import { type Listening, listenTo } from '../../src/sources/listen/listen.ts';
import { withLayout } from '../../src/sources/recognise/with-layout.ts';
import { machineClock, pause } from './collect.ts';
import { twinDescription, twinFrame } from './twin-description.ts';

const ports = { id: 'listen', clock: machineClock };
const lines: LineLayout = {
  kind: 'lines',
  delimiter: ';',
  fields: [{ role: 'counter' }, { role: 'channel', channel: 'left' }, { role: 'channel', channel: 'right' }],
};
const pull = simulatePull({}, 3);
const encode = encoderOf(lines, ['left', 'right']);
const line = (n: number) =>
  encode({
    counter: n,
    count: 1,
    values: Float64Array.of(Math.round(pull.left[n % 5000]!), Math.round(pull.right[n % 5000]!)),
  });

let listening: Listening | undefined;
let server: Server | undefined;
let timer: NodeJS.Timeout | undefined;
const sockets = new Set<Socket>();
afterEach(async () => {
  await listening?.stop();
  listening = undefined;
  clearInterval(timer);
  for (const socket of sockets) socket.destroy();
  sockets.clear();
  await new Promise<void>((done) => (server?.listening ? server.close(() => done()) : done()));
});

/** A device that is called over TCP and sends a piece every 10 ms. */
const device = (piece: (n: number) => Uint8Array) =>
  new Promise<Transport>((ready) => {
    let n = 0;
    server = createServer((socket) => {
      sockets.add(socket);
      socket.on('error', () => {});
    });
    timer = setInterval(() => {
      for (const socket of sockets) socket.write(piece(n));
      n++;
    }, 10);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server!.address() as { port: number };
      ready({ kind: 'tcp', mode: 'connect', host: '127.0.0.1', port });
    });
  });

const until = async (what: string, when: () => boolean) => {
  for (let i = 0; i < 2000 && !when(); i++) await pause(10);
  expect(when(), what).toBe(true);
};

const tenLines = (n: number) => Buffer.concat(Array.from({ length: 10 }, (_, i) => line(10 * n + i)));
const seen = () => listening!.view();

describe('listening to a source that is being described', () => {
  it('shows bytes before anything is described, recognises them, and reads on without opening the link again', async () => {
    const transport = await device(tenLines);
    listening = listenTo({ transport }, ports);
    await until('bytes', () => (seen().bytes?.received ?? 0) > 4000);
    expect(seen()).toMatchObject({ state: 'bytes', channels: [], counts: { samples: 0 } });
    expect(Buffer.from(seen().bytes!.last).toString('latin1')).toMatch(/\d+;\d+;\d+\r?\n/);
    const [best] = listening.propose();
    expect(best?.layout).toMatchObject({ kind: 'lines', delimiter: ';', fields: [{ role: 'counter' }, {}, {}] });
    const described = withLayout(
      { ...twinDescription(transport), channels: twinDescription(transport).channels },
      best!,
    );
    expect(described.layout).toMatchObject({ fields: lines.fields });
    expect(await listening.describe(described)).toBe(true);
    await until('a rate', () => seen().rate !== undefined);
    const view = seen();
    expect(view).toMatchObject({
      state: 'measuring',
      counts: { gaps: 0, missing: 0, faults: { doubled: 0, late: 0 } },
    });
    expect(view.trouble).toBeUndefined();
    expect(view.channels.map(({ channel }) => channel.name)).toEqual(['left', 'right']);
    // Every tenth of a second of this device brings about a hundred samples, whatever the machine does beside it.
    expect(view.rate!.measured).toBeGreaterThan(100);
    expect(sockets.size).toBe(1);
  });

  it('says that nothing is decoded, and when most checksums are wrong', async () => {
    const transport = await device(twinFrame);
    const right = twinDescription(transport);
    const text: SourceDescription = { ...right, layout: lines };
    listening = listenTo({ transport, description: text }, ports);
    await until('trouble', () => seen().trouble !== undefined);
    expect(seen()).toMatchObject({ state: 'bytes', trouble: 'source-not-decoded', counts: { samples: 0 } });
    const checksum = { kind: 'crc16', polynomial: 0x1021, initial: 0, reflected: false, finalXor: 0 } as const;
    await listening.describe({
      ...right,
      layout: { ...right.layout, checksum } as SourceDescription['layout'] & object,
    });
    await until('another trouble', () => seen().trouble === 'source-checksum-wrong');
    expect(seen().pieces).toMatchObject({ kind: 'frames', right: 0 });
    await listening.describe(right);
    await until('samples', () => seen().counts.samples >= 500);
    const { pieces, ...view } = seen();
    expect(view).toMatchObject({ state: 'measuring', counts: { gaps: 0, faults: { checksum: 0 } } });
    expect(pieces!.right).toBe(pieces!.found);
  });

  it('tells by a code why a link does not stand, and never hangs', async () => {
    const transport = await device(tenLines);
    const { port } = transport as { port: number };
    listening = listenTo({ transport: { kind: 'tcp', mode: 'listen', host: '127.0.0.1', port } }, ports);
    await until('the address in use', () => seen().trouble === 'source-address-in-use');
    await listening.stop();
    await new Promise<void>((done) => server!.close(() => done()));
    listening = listenTo({ transport }, ports);
    await until('nobody there', () => seen().trouble === 'source-no-answer');
    expect(seen().state).toBe('down');
    await listening.stop();
    listening = listenTo({ transport: { kind: 'serial', path: '/dev/sthene-none', baudRate: 9600 } }, ports);
    await until('no such port', () => seen().trouble === 'source-port-missing');
    await listening.stop();
    listening = listenTo({ transport: { kind: 'udp', host: '192.0.2.77', port: 0 } }, ports);
    await until('no such address', () => seen().trouble === 'source-address-unknown');
  });

  it('says so when nothing has come for 5 s, and lets go of the port', async () => {
    const transport = { kind: 'udp', host: '127.0.0.1', port: 0 } as const;
    listening = listenTo({ transport }, ports);
    await until('silence', () => seen().trouble === 'source-no-bytes');
    expect(seen().state).toBe('waiting');
    expect(seen().seconds).toBeGreaterThan(5);
    await listening.stop();
  });

  it('hears virtual plates, which have no bytes, and says what cannot be made', async () => {
    const transport = { kind: 'virtual', script: 'fernwater-three', seed: 1 } as const;
    const description: SourceDescription = {
      schema: 'sthene.source/1',
      name: 'V',
      transport,
      channels: [],
      rate: 1000,
    };
    const schedule = (tick: () => void, ms: number) => {
      const one = setInterval(tick, ms);
      return () => clearInterval(one);
    };
    listening = listenTo({ transport, description }, { ...ports, schedule });
    await until('samples', () => seen().counts.samples > 100);
    expect(seen().bytes).toBeUndefined();
    expect(seen().channels.map(({ channel }) => channel.name)).toEqual(['left', 'right']);
    expect(await listening.describe({ ...description, transport: { ...transport, script: 'none' } })).toBe(false);
    await listening.stop();
    const wrong = { ...transport, script: 'nobody' };
    listening = listenTo({ transport: wrong, description: { ...description, transport: wrong } }, ports);
    expect(seen()).toMatchObject({ state: 'down', trouble: 'source-file-unreadable' });
  });

  it('has no link for files and virtual plates', () => {
    expect(linkOf({ transport: { kind: 'folder', path: '/in' } })).toBeUndefined();
    expect(linkOf({ transport: { kind: 'serial', path: '/dev/null', baudRate: 9600 } })?.startsWhole).toBe(false);
    expect(linkOf({ transport: { kind: 'udp', host: '127.0.0.1', port: 0 } })?.reorderWindow).toBe(0.2);
  });
});

describe('the code of a system error', () => {
  // As the serial library of version 13 and Node 20 word them; recorded by hand from their errors on Linux and Windows.
  const cases = [
    ['Error: Error Resource temporarily unavailable Cannot lock port', undefined, 'source-port-busy'],
    ['Opening COM4: Access denied', undefined, 'source-port-busy'],
    ['Error: Permission denied, cannot open /dev/ttyUSB0', undefined, 'source-port-denied'],
    ['Error: No such file or directory, cannot open /dev/ttyUSB0', undefined, 'source-port-missing'],
    ['Opening COM9: File not found', undefined, 'source-port-missing'],
    ['listen EADDRINUSE: address already in use 127.0.0.1:80', 'EADDRINUSE', 'source-address-in-use'],
    ['listen EACCES: permission denied 0.0.0.0:80', 'EACCES', 'source-port-denied'],
    ['connect ECONNREFUSED 127.0.0.1:9', 'ECONNREFUSED', 'source-no-answer'],
    ['getaddrinfo ENOTFOUND plates', 'ENOTFOUND', 'source-address-unknown'],
    ['read ECONNRESET', 'ECONNRESET', 'source-link-failed'],
  ] as const;
  it.each(cases)('%s', (message, code, expected) => {
    expect(troubleOf(Object.assign(new Error(message), code === undefined ? {} : { code }))).toBe(expected);
  });
});
