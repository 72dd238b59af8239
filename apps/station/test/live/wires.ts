import { type ChildProcess, spawn } from 'node:child_process';
import { createWriteStream, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer, type Server, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Transport } from '@sthene/capture';
import type { LiveClient } from './live-client.ts';

/** What stands at the far end of a wire: sends bytes and sees the screens. */
export type FarEnd = (write: (bytes: Buffer) => void) => {
  start(): unknown;
  stop(): unknown;
  see: NonNullable<LiveClient['onMessage']>;
};
/** What has to be done when a test is over, the last first. */
export type Ends = (() => Promise<void> | void)[];

/** A wire and where the station finds it. */
export type Wire = (ends: Ends) => Promise<{ readonly transport: Transport; write(bytes: Buffer): void }>;

export const tcp: Wire = async (ends) => {
  let socket: Socket | undefined;
  const server: Server = createServer((one) => {
    socket = one;
    one.on('error', () => {});
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  ends.push(() => void server.close());
  const { port } = server.address() as { port: number };
  const transport: Transport = { kind: 'tcp', mode: 'connect', host: '127.0.0.1', port };
  return { transport, write: (bytes) => void socket?.write(bytes) };
};

export const serial: Wire = async (ends) => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-pty-'));
  ends.push(() => rmSync(folder, { recursive: true, force: true }));
  const [near, far] = [join(folder, 'station'), join(folder, 'device')];
  const pair: ChildProcess = spawn('socat', [`pty,raw,echo=0,link=${near}`, `pty,raw,echo=0,link=${far}`], {
    stdio: 'ignore',
  });
  ends.push(() => void pair.kill());
  for (let i = 0; i < 200 && !(existsSync(near) && existsSync(far)); i++) await wait(10);
  const out = createWriteStream(far, { flags: 'r+' });
  out.on('error', () => {});
  ends.push(() => void out.destroy());
  return { transport: { kind: 'serial', path: near, baudRate: 921_600 }, write: (bytes) => void out.write(bytes) };
};
