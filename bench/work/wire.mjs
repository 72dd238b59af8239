/** Plates on a wire, as the live benchmarks use them: frames of 5 ms over TCP, a 32-bit float a channel, counter and CRC-32. */
import { createServer } from 'node:net';
import { crc32 } from 'node:zlib';

/** Seconds a frame. */
const frameSeconds = 0.005;

/** Source description of `channels` load cells, half of them under each foot, that listen at a port of this machine. */
export function wireDescription(rate, channels, port) {
  const names = Array.from({ length: channels }, (_, c) => `cell ${c + 1}`);
  return {
    schema: 'sthene.source/1',
    name: `${channels} cells at ${rate} Hz`,
    transport: { kind: 'tcp', mode: 'connect', host: '127.0.0.1', port },
    layout: {
      kind: 'frames',
      sync: 'a55a',
      endian: 'little',
      head: [{ role: 'counter', type: 'u32' }],
      sample: names.map((channel) => ({ role: 'channel', type: 'f32', channel })),
      samples: rate * frameSeconds,
      checksum: { kind: 'crc32', endian: 'little' },
    },
    channels: names.map((name, c) => {
      const side = c < channels / 2 ? 'left' : 'right';
      return { name, plate: side, side, axis: 'z', unit: 'N', scale: 1, offset: 0, rawRange: [-10_000, 10_000] };
    }),
    rate,
  };
}

/** A frame of samples, value by value as they stand in memory. */
function frameOf(counter, values) {
  const bytes = Buffer.allocUnsafe(2 + 4 + 4 * values.length + 4);
  bytes.writeUInt16BE(0xa55a, 0);
  bytes.writeUInt32LE(counter, 2);
  for (let i = 0; i < values.length; i++) bytes.writeFloatLE(values[i], 6 + 4 * i);
  bytes.writeUInt32LE(crc32(bytes.subarray(2, -4)), bytes.length - 4);
  return bytes;
}

/**
 * Sends frames to whoever calls, always those that are due.
 *
 * @param fill writes the samples [first, first + count) into `values`, sample by sample, channel by channel
 */
export async function startWire(rate, channels, fill) {
  const count = rate * frameSeconds;
  const sockets = new Set();
  const times = [];
  let from;
  let frames = 0;
  const server = createServer((socket) => {
    socket.setNoDelay(true);
    from ??= frames;
    sockets.add(socket);
    socket.on('error', () => {});
    socket.on('close', () => sockets.delete(socket));
  });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  const began = performance.now();
  const values = new Float64Array(count * channels);
  const timer = setInterval(() => {
    const due = Math.floor((performance.now() - began) / (1000 * frameSeconds));
    for (; frames < due; frames++) {
      fill(values, frames * count, count);
      const bytes = frameOf(frames, values);
      if (from !== undefined) times.push(clockNow());
      for (const socket of sockets) socket.write(bytes);
    }
  }, 1);
  return {
    port: server.address().port,
    /** Samples sent since somebody first called; whoever called counts them from there. */
    samplesSent: () => times.length * count,
    /** When the frame of a sample was handed to the socket. */
    sentAt: (sample) => times[Math.floor(sample / count)],
    stop() {
      clearInterval(timer);
      for (const socket of sockets) socket.destroy();
      server.close();
    },
  };
}

/** This process's clock, ms; the same kind of clock as a page's `performance.timeOrigin + performance.now()`. */
export const clockNow = () => performance.timeOrigin + performance.now();
