import { createServer, type Socket } from 'node:net';
import { simulatePull } from '@sthene/core';

/** A simulated device on the network: two plates as binary frames, sent to whoever calls. */
export interface SimulatedDevice {
  readonly port: number;
  /** Who is connected now. */
  readonly callers: number;
  /** Begins or ends sending; connections stay. */
  send(on: boolean): void;
  close(): Promise<void>;
}

const samplesPerFrame = 10;

/**
 * Frames as a stranger's device might send them: `a5 5a`, a counter of 16 bits, ten samples of two 24-bit numbers in steps of
 * 0.1 N, the sum of the bytes; low byte first, 1000 samples a second by this machine's clock.
 */
export async function simulatedDevice(): Promise<SimulatedDevice> {
  const { left, right } = simulatePull({ sampleRate: 1000, bodyMass: 71, netForce: 1700, plateNoise: 0.6 }, 11);
  const sockets = new Set<Socket>();
  let sending = true;
  const began = performance.now();
  let frames = 0;
  const server = createServer((socket) => {
    sockets.add(socket);
    socket.on('error', () => {});
    socket.on('close', () => sockets.delete(socket));
  });
  const frame = (n: number): Buffer => {
    const bytes = Buffer.alloc(2 + 2 + samplesPerFrame * 6 + 1);
    bytes.writeUInt16BE(0xa55a, 0);
    bytes.writeUInt16LE(n % 65_536, 2);
    for (let i = 0; i < samplesPerFrame; i++) {
      const at = (n * samplesPerFrame + i) % left.length;
      bytes.writeIntLE(Math.round(10 * (left[at] as number)), 4 + i * 6, 3);
      bytes.writeIntLE(Math.round(10 * (right[at] as number)), 7 + i * 6, 3);
    }
    let sum = 0;
    for (let i = 2; i < bytes.length - 1; i++) sum += bytes[i] as number;
    bytes[bytes.length - 1] = sum & 255;
    return bytes;
  };
  const timer = setInterval(() => {
    const due = Math.floor((performance.now() - began) / samplesPerFrame);
    for (; frames < due; frames++) if (sending) for (const socket of sockets) socket.write(frame(frames));
  }, 10);
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  return {
    port: (server.address() as { port: number }).port,
    get callers() {
      return sockets.size;
    },
    send(on) {
      sending = on;
    },
    async close() {
      clearInterval(timer);
      for (const socket of sockets) socket.destroy();
      await new Promise((done) => server.close(done));
    },
  };
}
