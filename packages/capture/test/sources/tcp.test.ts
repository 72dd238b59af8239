import { connect, createServer, type Server, type Socket } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { byteSource } from '../../src/sources/byte-source.ts';
import { createSource } from '../../src/sources/create-source.ts';
import type { Source } from '../../src/sources/source.ts';
import { tcpLink } from '../../src/sources/transports/tcp/tcp-link.ts';
import { collector, machineClock, pause } from './collect.ts';
import { of, provenGrid } from './twin-bench.ts';
import { twinDescription, twinFrames } from './twin-description.ts';

let source: Source | undefined;
const sockets = new Set<Socket>();
let server: Server | undefined;
afterEach(async () => {
  await source?.stop();
  for (const socket of sockets) socket.destroy();
  sockets.clear();
  if (server?.listening) await new Promise((done) => server!.close(done));
});

const listen = (port: number, greet: (socket: Socket) => void) =>
  new Promise<number>((ready) => {
    server = createServer((socket) => {
      sockets.add(socket);
      socket.on('error', () => {});
      greet(socket);
    });
    server.listen(port, '127.0.0.1', () => ready((server!.address() as { port: number }).port));
  });

// a promise in real time: a busy machine may need another try, never a longer one
describe('TCP', { retry: 2 }, () => {
  it('calls a device, starts it, reads it whole, and comes back to it in the same stream', async () => {
    const got = collector();
    let greeted = '';
    let sent = 0;
    let current: Socket | undefined;
    const greet = (socket: Socket): void => {
      current = socket;
      socket.on('data', (bytes: Buffer) => {
        greeted += bytes.toString('latin1');
      });
    };
    const port = await listen(0, greet);
    source = createSource(
      twinDescription({ kind: 'tcp', mode: 'connect', host: '127.0.0.1', port, startBytes: '47 4f' }),
      { id: 'rig', clock: machineClock },
    );
    await source.start(got.emit);
    await got.until('the greeting', () => greeted === 'GO');
    const send = async (frames: number): Promise<void> => {
      // In pieces that never end where a frame does.
      const bytes = twinFrames(sent, sent + frames);
      sent += frames;
      for (let at = 0; at < bytes.length; at += 97) current!.write(bytes.subarray(at, at + 97));
      await pause(10);
    };
    await send(100);
    await got.until('1000 samples', () => got.samples() === 1000);
    const cut = performance.now();
    current!.destroy();
    await got.until('the loss', () => got.states().includes('lost'), 500);
    expect(performance.now() - cut).toBeLessThan(500);
    sent += 60;
    await got.until('the return', () => got.states().includes('returned'), 2000);
    await send(100);
    await got.until('2000 samples', () => got.samples() === 2000);
    await source.stop();
    expect(of(got.packets, 'header')).toHaveLength(1);
    expect(of(got.packets, 'header')[0]).toMatchObject({ source: 'rig', device: '127.0.0.1', promisedRate: 1000 });
    expect(of(got.packets, 'gap').map(({ first, count, cause }) => [first, count, cause])).toEqual([
      [1000, 600, 'disconnected'],
    ]);
    expect(provenGrid(got.packets)).toBe(2600);
    expect(got.packets.at(-1)).toMatchObject({ kind: 'end', samples: 2000, gaps: 1, missing: 600 });
  });

  it('waits for a device that is not there yet', async () => {
    const free = await listen(0, () => {});
    await new Promise((done) => server!.close(done));
    const got = collector();
    source = createSource(twinDescription({ kind: 'tcp', mode: 'connect', host: '127.0.0.1', port: free }), {
      id: 'rig',
      clock: machineClock,
    });
    await source.start(got.emit);
    expect(got.packets[0]?.kind).toBe('header');
    expect(got.states()).toEqual(['connecting']);
    await listen(free, (socket) => socket.write(twinFrames(0, 5)));
    await got.until('50 samples', () => got.samples() === 50, 2500);
  });

  it('is called by one device, and turns others away', async () => {
    const got = collector();
    const link = tcpLink({ kind: 'tcp', mode: 'listen', host: '127.0.0.1', port: 0 });
    source = byteSource(
      twinDescription({ kind: 'tcp', mode: 'listen', host: '127.0.0.1', port: 0 }),
      { id: 'rig', clock: machineClock },
      { link, reorderWindow: 0, startsWhole: true },
    );
    await source.start(got.emit);
    const call = (from: string) =>
      new Promise<Socket>((ready) => {
        const socket = connect({ host: '127.0.0.1', port: link.port!, localAddress: from }, () => ready(socket));
        sockets.add(socket);
        socket.on('error', () => {});
      });
    const device = await call('127.0.0.1');
    device.write(twinFrames(0, 50));
    await got.until('500 samples', () => got.samples() === 500);
    const second = await call('127.0.0.1');
    second.write(twinFrames(900, 950));
    await got.until('the refusal', () => got.states().includes('wrong-device'));
    device.write(twinFrames(50, 60));
    await got.until('600 samples', () => got.samples() === 600);
    device.destroy();
    await got.until('the loss', () => got.states().includes('lost'));
    const other = await call('127.0.0.2');
    other.write(twinFrames(0, 50));
    await got.until('a second refusal', () => got.states().filter((state) => state === 'wrong-device').length === 2);
    const again = await call('127.0.0.1');
    again.write(twinFrames(70, 80));
    await got.until('700 samples', () => got.samples() === 700);
    await source.stop();
    expect(provenGrid(got.packets)).toBe(800);
  });
});
