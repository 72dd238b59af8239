import { connect } from 'node:net';
import { simulatePull } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { encoderOf } from '../../src/sources/codec/index.ts';
import type { LineLayout } from '../../src/sources/description.ts';
import { linkOf } from '../../src/sources/link-of.ts';
import { withLayout } from '../../src/sources/recognise/with-layout.ts';
import { type TcpLink, tcpLink } from '../../src/sources/transports/tcp/tcp-link.ts';
import { watchBytes } from '../../src/sources/watch-bytes.ts';
import { pause } from './collect.ts';
import { twinDescription } from './twin-description.ts';

const transport = { kind: 'tcp', mode: 'listen', host: '127.0.0.1', port: 0 } as const;
const layout: LineLayout = {
  kind: 'lines',
  delimiter: ';',
  fields: [{ role: 'counter' }, { role: 'channel', channel: 'channel 1' }, { role: 'channel', channel: 'channel 2' }],
};
const pull = simulatePull({}, 3);
const encode = encoderOf(layout, ['channel 1', 'channel 2']);
const text = Buffer.concat(
  Array.from({ length: 1500 }, (_, n) =>
    encode({
      counter: n,
      count: 1,
      values: Float64Array.of(Math.round(pull.left[2 * n]!), Math.round(pull.right[2 * n]!)),
    }),
  ),
);

async function deliver(link: TcpLink, bytes: Uint8Array, done: () => boolean): Promise<void> {
  const socket = connect({ host: '127.0.0.1', port: link.port! });
  socket.on('error', () => {});
  socket.write(bytes);
  for (let i = 0; i < 400 && !done(); i++) await pause(5);
  socket.destroy();
}

describe('watching a line', () => {
  it('shows bytes, proposes how to read them, and shows values when they are read so', async () => {
    const described = twinDescription(transport);
    const first = tcpLink(transport);
    const wrong = await watchBytes(described, { link: first, startsWhole: true });
    expect(wrong.view()).toMatchObject({
      state: 'lost',
      words: 'Waiting for the device to call.',
      received: 0,
      samples: 0,
      channels: [],
    });
    await deliver(first, text, () => wrong.view().received === text.length);
    expect(wrong.view().samples).toBe(0);
    expect(wrong.view().bytes).toEqual(new Uint8Array(text.subarray(-4096)));
    const [best] = wrong.propose();
    expect(best?.layout).toEqual(layout);
    await wrong.stop();

    const second = tcpLink(transport);
    const right = await watchBytes(withLayout(described, best!), { link: second, startsWhole: true });
    await deliver(second, text, () => right.view().samples === 1500);
    expect(right.view()).toMatchObject({ samples: 1500, unreadable: 0 });
    expect(right.view().channels.map(({ channel, physical }) => [channel.name, physical])).toEqual([
      ['channel 1', Math.round(pull.left[2998]!)],
      ['channel 2', Math.round(pull.right[2998]!)],
    ]);
    await right.stop();
  });

  it('has no link for files and virtual plates', () => {
    expect(linkOf({ transport: { kind: 'folder', path: '/in' } })).toBeUndefined();
    expect(linkOf({ transport: { kind: 'virtual', script: 'x', seed: 1 } })).toBeUndefined();
    expect(linkOf({ transport })?.startsWhole).toBe(true);
    expect(linkOf({ transport: { kind: 'serial', path: '/dev/null', baudRate: 9600 } })?.startsWhole).toBe(false);
    expect(linkOf({ transport: { kind: 'udp', host: '127.0.0.1', port: 0 } })?.reorderWindow).toBe(0.2);
  });
});
