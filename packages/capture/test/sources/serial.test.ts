import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { createWriteStream, existsSync, mkdtempSync, rmSync, type WriteStream } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createSource } from '../../src/sources/create-source.ts';
import type { TransportPorts } from '../../src/sources/transport-ports.ts';
import { listSerialPorts } from '../../src/sources/transports/serial/list-ports.ts';
import { collector, machineClock, pause } from './collect.ts';
import { of, provenGrid } from './twin-bench.ts';
import { twinDescription, twinFrames } from './twin-description.ts';

const socat = spawnSync('socat', ['-V']).status === 0;
const reason = socat ? '' : ' (skipped: socat, which makes a pair of serial ports, is not installed)';

// a promise in real time: a busy machine may need another try, never a longer one
describe.skipIf(!socat)(`a serial port${reason}`, { retry: 2 }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-serial-'));
  const station = join(folder, 'station');
  const device = join(folder, 'device');
  let pair: ChildProcess | undefined;
  let out: WriteStream | undefined;

  const plug = async (): Promise<void> => {
    pair = spawn('socat', [`pty,raw,echo=0,link=${station}`, `pty,raw,echo=0,link=${device}`], { stdio: 'ignore' });
    for (let i = 0; i < 200 && !(existsSync(station) && existsSync(device)); i++) await pause(10);
    out = createWriteStream(device, { flags: 'r+' });
    out.on('error', () => {});
    await new Promise((ready) => out!.once('open', ready));
  };
  const unplug = async (): Promise<void> => {
    out?.destroy();
    const gone = new Promise((done) => pair!.once('exit', done));
    pair!.kill();
    await gone;
  };
  const write = (bytes: Uint8Array) => new Promise<void>((done) => out!.write(bytes, () => done()));

  beforeAll(plug);
  afterAll(async () => {
    await unplug();
    rmSync(folder, { recursive: true, force: true });
  });

  const description = (serialNumber?: string) =>
    twinDescription({
      kind: 'serial',
      path: station,
      baudRate: 921_600,
      ...(serialNumber === undefined ? {} : { serialNumber }),
    });

  it('is read whole at full rate, noticed when pulled, and goes on in the same stream when back', async () => {
    const got = collector();
    const source = createSource(description(), { id: 'rig', clock: machineClock });
    await source.start(got.emit);
    await got.until('the port', () => got.states().includes('connected'));
    // Begins in the middle of a frame, as a serial port does.
    await write(twinFrames(0, 1).subarray(30));
    for (let n = 1; n < 301; n += 10) {
      await write(twinFrames(n, n + 10));
      await pause(4);
    }
    await got.until('3000 samples', () => got.samples() === 3000);
    const cut = performance.now();
    await unplug();
    await got.until('the loss', () => got.states().includes('lost'));
    expect(performance.now() - cut).toBeLessThan(500);
    await pause(200);
    const back = performance.now();
    await plug();
    await got.until('the return', () => got.states().includes('returned'));
    expect(performance.now() - back).toBeLessThan(2000);
    // The device went on counting: 40 frames were not heard.
    await write(twinFrames(341, 391));
    await got.until('3500 samples', () => got.samples() === 3500);
    await source.stop();
    const gap = of(got.packets, 'gap');
    expect(gap.map(({ first, count, cause }) => [first, count, cause])).toEqual([[3000, 400, 'disconnected']]);
    expect(of(got.packets, 'fault')).toEqual([]);
    expect(of(got.packets, 'header')).toHaveLength(1);
    expect(got.packets.at(-1)).toMatchObject({ kind: 'end', samples: 3500, gaps: 1, missing: 400 });
    // The first frame heard is number 1, so every encoded index lies ten further on than the grid.
    const shifted = got.packets.map((packet) =>
      packet.kind === 'samples' ? { ...packet, values: packet.values.map((value) => value - 160) } : packet,
    );
    expect(provenGrid(shifted)).toBe(3900);
  });

  it('notices silence within half a second while the cable is in', async () => {
    const got = collector();
    const source = createSource(description(), { id: 'rig', clock: machineClock });
    await source.start(got.emit);
    await write(twinFrames(0, 20));
    await got.until('200 samples', () => got.samples() === 200);
    const silent = performance.now();
    await got.until('the silence', () => got.states().includes('quiet'));
    expect(performance.now() - silent).toBeLessThan(600);
    await write(twinFrames(20, 40));
    await got.until('the return', () => got.states().includes('returned'));
    await source.stop();
  });

  it('is found by the serial number of the device, and refuses another device', async () => {
    let known = [{ path: station, serialNumber: 'FW-0008' }];
    const ports: TransportPorts = { id: 'rig', clock: machineClock, listSerialPorts: async () => known };
    const got = collector();
    const source = createSource(description('FW-0007'), ports);
    await source.start(got.emit);
    await write(twinFrames(0, 5));
    await got.until('the refusal', () => got.states().includes('wrong-device'));
    expect(got.samples()).toBe(0);
    known = [{ path: station, serialNumber: 'FW-0007' }];
    await got.until('the right device', () => got.states().includes('connected'), 2000);
    await write(twinFrames(0, 5));
    await got.until('50 samples', () => got.samples() >= 50);
    await source.stop();
    expect(of(got.packets, 'header')[0]).toMatchObject({ device: 'FW-0007' });
  });
});

describe('the list of serial ports', () => {
  it('is a list, empty where the system cannot tell', async () => {
    const before = process.env.PATH;
    expect(Array.isArray(await listSerialPorts())).toBe(true);
    process.env.PATH = '/nowhere';
    try {
      expect(await listSerialPorts()).toEqual([]);
    } finally {
      process.env.PATH = before;
    }
  });
});
