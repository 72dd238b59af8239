import { createSocket } from 'node:dgram';

/** A UDP port of this machine that nobody uses just now. */
export async function freePort(): Promise<number> {
  const socket = createSocket('udp4');
  await new Promise<void>((done) => socket.bind(0, '127.0.0.1', done));
  const { port } = socket.address();
  await new Promise<void>((done) => socket.close(() => done()));
  return port;
}
