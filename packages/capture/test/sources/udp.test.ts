import { createSocket, type Socket } from 'node:dgram';
import { afterEach, describe, expect, it } from 'vitest';
import { byteSource } from '../../src/sources/byte-source.ts';
import type { Source } from '../../src/sources/source.ts';
import { udpLink } from '../../src/sources/transports/udp/udp-link.ts';
import { collector, machineClock, pause } from './collect.ts';
import { of, provenGrid } from './twin-bench.ts';
import { twinDescription, twinFrame, twinFrames } from './twin-description.ts';

let source: Source | undefined;
const senders: Socket[] = [];
afterEach(async () => {
  await source?.stop();
  for (const sender of senders.splice(0)) sender.close();
});

const sender = (from: string) =>
  new Promise<Socket>((ready) => {
    const socket = createSocket('udp4');
    senders.push(socket);
    socket.bind(0, from, () => ready(socket));
  });

describe('UDP', () => {
  it('counts what is lost, doubled and late, and puts in order what is swapped', async () => {
    const got = collector();
    const description = twinDescription({ kind: 'udp', host: '127.0.0.1', port: 0 });
    const link = udpLink({ kind: 'udp', host: '127.0.0.1', port: 0 });
    source = byteSource(
      description,
      { id: 'rig', clock: machineClock },
      { link, reorderWindow: 0.2, startsWhole: true },
    );
    await source.start(got.emit);
    expect(got.states()).toEqual(['connecting']);
    const device = await sender('127.0.0.1');
    const stranger = await sender('127.0.0.2');
    const send = (bytes: Uint8Array, from = device) =>
      new Promise<void>((done) => from.send(bytes, link.port!, '127.0.0.1', () => done()));
    const order = [0, 1, 2, 4, 3, 5, 5, 6, 9, 10, 11, 12];
    for (const n of order) await send(twinFrame(n));
    await send(twinFrame(13), stranger);
    // Two frames in a datagram, and one cut short.
    await send(twinFrames(13, 15));
    await send(twinFrame(15).subarray(0, 40));
    await send(twinFrame(16));
    await pause(450);
    await send(twinFrame(7));
    await send(twinFrame(17));
    await got.until('the last frame', () => got.samples() === 150);
    await source.stop();
    const { packets } = got;
    expect(provenGrid(packets)).toBe(180);
    expect(of(packets, 'gap').map(({ first, count, cause }) => [first, count, cause])).toEqual([
      [70, 20, 'lost'],
      [150, 10, 'damaged'],
    ]);
    expect(of(packets, 'fault').map(({ fault, count }) => [fault, count])).toEqual([
      ['swapped', 1],
      ['doubled', 1],
      ['unreadable', 1],
      ['late', 1],
    ]);
    expect(got.states()).toContain('wrong-device');
    expect(packets.at(-1)).toMatchObject({ kind: 'end', samples: 150, gaps: 2, missing: 30 });
  });
});
