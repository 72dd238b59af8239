import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import {
  createRig,
  type GapPacket,
  nodeJournalPort,
  type Packet,
  readJournal,
  type SourceDescription,
} from '@sthene/capture';
import { liveRoutes, routes } from '@sthene/contract';
import { afterEach, describe, expect, it } from 'vitest';
import { provenGrid } from '../../../../packages/capture/test/sources/twin-bench.ts';
import { encodedSamples, onlyPort, Player } from '../../../../packages/capture/test/streaming/bench.ts';
import { freePort } from '../../../../tests/streaming/free-port.ts';
import { type SenderFacts, StreamSender } from '../../../../tests/streaming/sender.ts';
import type { LivePorts } from '../../src/live/ports.ts';
import { stationPorts } from '../../src/live/station-ports.ts';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { addRig, by, inLab } from './set-up.ts';

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

/** Ports of a station that seeks streams at one port of this machine. */
const seeking = (port: number): LivePorts => ({
  ...stationPorts,
  streamNetwork: onlyPort(port),
  createSource: (rig, descriptions) =>
    createRig(descriptions, { id: rig, clock: stationPorts.clock, streamNetwork: onlyPort(port) }),
});

async function stationSeeking(port: number): Promise<StationUnderTest> {
  const station = await stationUnderTest(undefined, undefined, seeking(port));
  ends.push(() => station.end());
  await station.ask(routes.createLab, { params: inLab, body: { name: 'Boathouse' } });
  return station;
}

async function sending(facts: Partial<SenderFacts> = {}): Promise<StreamSender> {
  const sender = new StreamSender({ queryPort: await freePort(), labels: ['Left Fz', 'Right Fz'], ...facts });
  await sender.start();
  ends.push(() => sender.stop());
  return sender;
}

/** Every packet of the newest journal in a folder. */
async function journalled(folder: string): Promise<Packet[]> {
  const packets: Packet[] = [];
  for await (const packet of readJournal(nodeJournalPort, folder)) packets.push(packet);
  return packets;
}

/** The folder with the journals of the lab. */
function journalsIn(folder: string): string {
  const found = readdirSync(folder, { recursive: true, encoding: 'utf8' }).find(
    (name) => basename(dirname(name)) === 'journal',
  );
  if (found === undefined) throw new Error('there is no journal');
  return join(folder, dirname(found));
}

const of = <K extends Packet['kind']>(packets: readonly Packet[], kind: K) =>
  packets.filter((packet): packet is Extract<Packet, { kind: K }> => packet.kind === kind);

// promises in real time: a busy machine may need another try, never a longer one
describe('a stream at the station', { retry: 2 }, () => {
  it('is found, chosen, listened to, and kept as a source', async () => {
    const sender = await sending();
    const station = await stationSeeking(sender.facts.queryPort);
    const found = await station.ask(liveRoutes.streams, { params: inLab, query: {} });
    expect(found).toMatchObject({
      streams: [
        {
          ...{ name: 'Fernwater plates', type: 'Force', sourceId: 'FW-0007', rate: 1000, format: 'float32' },
          labels: ['Left Fz', 'Right Fz'],
          description: {
            transport: { kind: 'stream', sourceId: 'FW-0007', labels: ['Left Fz', 'Right Fz'] },
            channels: [
              { name: 'Left Fz', side: 'left', axis: 'z', unit: 'N' },
              { name: 'Right Fz', side: 'right', axis: 'z', unit: 'N' },
            ],
            rate: 1000,
          },
        },
      ],
    });
    const { description } = found.streams[0]!;
    const player = new Player(sender).start();
    ends.push(() => player.stop());
    const listen = (what: unknown) =>
      station.ask(liveRoutes.listenSource, { params: { ...inLab, id: 'a' }, body: { description: what } });
    await expect
      .poll(() => listen(description), { timeout: 10_000, interval: 200 })
      .toMatchObject({ state: 'measuring', faults: [], counts: { missing: 0 } });
    const view = await listen(description);
    expect(view.channels.map(({ name }) => name)).toEqual(['Left Fz', 'Right Fz']);
    const other = { ...description, transport: { kind: 'stream', name: 'Nobody' } };
    await expect
      .poll(() => listen(other), { timeout: 10_000, interval: 300 })
      .toMatchObject({ state: 'down', trouble: { code: 'source-stream-missing' } });
    const kept = await station.ask(liveRoutes.createSource, { params: inLab, body: { description: description!, by } });
    expect(kept.description).toEqual(description);
    await expect(
      station.ask(liveRoutes.createSource, {
        params: inLab,
        body: { description: { ...description!, name: 'B', transport: { kind: 'stream' } }, by },
      }),
    ).rejects.toMatchObject({ problem: { code: 'source-stream-unnamed' } });
  });

  it('that holds texts or promises no rate is shown, and why no rig can measure with it', async () => {
    const texts = await sending({ format: 'string', rate: 0, labels: ['mark'] });
    const station = await stationSeeking(texts.facts.queryPort);
    const { streams } = await station.ask(liveRoutes.streams, { params: inLab, query: { host: '127.0.0.1' } });
    expect(streams).toMatchObject([{ format: 'string', words: 'It holds texts, not numbers.' }]);
    expect(streams[0]?.description).toBeUndefined();
    expect(
      await station.ask(liveRoutes.streams, { params: inLab, query: { host: '127.0.0.1', port: 9 } }),
    ).toMatchObject({
      streams: [],
    });
  });

  it('is recorded through a stall and a sender that began anew: what was confirmed is there, each gap has its cause', async () => {
    const sender = await sending({ clockStart: 40_000 });
    const port = sender.facts.queryPort;
    const station = await stationSeeking(port);
    const { streams } = await station.ask(liveRoutes.streams, { params: inLab, query: {} });
    const rig = await addRig(station, 'A', streams[0]?.description as SourceDescription);
    const viewer = await LiveClient.join(station.address, 'viewer', 'phone-1');
    ends.push(() => viewer.close());
    await station.ask(liveRoutes.openRig, { params: { ...inLab, id: rig }, body: { by } });
    const view = () => station.ask(liveRoutes.rig, { params: { ...inLab, id: rig } });
    expect(await view()).toMatchObject({ device: 'FW-0007' });

    // How even the stamps are is known after some seconds, and then a loss of one chunk shows.
    const clockAtZero = sender.clock;
    sender.send([...encodedSamples(0, 3000, clockAtZero), ...encodedSamples(3020, 3500, clockAtZero)]);
    await expect.poll(async () => (await view()).counts.samples, { timeout: 8000 }).toBe(3480);
    await expect.poll(async () => (await view()).state, { timeout: 4000 }).toBe('quiet');
    sender.send(encodedSamples(4500, 5000, clockAtZero));
    await expect.poll(async () => (await view()).counts.samples, { timeout: 4000 }).toBe(3980);
    // As a kill would find it: what was confirmed a moment ago has to be on the disk.
    await viewer.until(() => viewer.of('confirmed').some(({ samples }) => samples >= 5000), 10);
    const confirmed = Math.max(...viewer.of('confirmed').map(({ samples }) => samples));
    const copy = mkdtempSync(join(tmpdir(), 'sthene-copy-'));
    ends.push(() => rmSync(copy, { recursive: true, force: true }));
    cpSync(journalsIn(station.folder), copy, { recursive: true });
    const found = await journalled(copy);
    expect(provenGrid(found)).toBeGreaterThanOrEqual(confirmed);

    await sender.stop();
    await expect.poll(async () => (await view()).state, { timeout: 4000 }).toBe('lost');
    await sender.start(2);
    await expect.poll(async () => (await view()).state, { timeout: 6000 }).not.toBe('lost');
    sender.send(encodedSamples(0, 500, sender.clock));
    await expect.poll(async () => (await view()).counts.samples, { timeout: 4000 }).toBe(4480);
    await station.ask(liveRoutes.closeRig, { params: { ...inLab, id: rig }, body: { by } });

    const packets = await journalled(journalsIn(station.folder));
    // A machine so busy that the station itself stood still says that instead.
    const cause = (gap: GapPacket) => (gap.cause === 'suspended' ? 'stall' : gap.cause);
    expect(
      of(packets, 'gap').map((gap) => [gap.first, gap.cause === 'disconnected' ? 0 : gap.count, cause(gap)]),
    ).toEqual([
      [3000, 20, 'lost'],
      [3500, 1000, 'stall'],
      [5000, 0, 'disconnected'],
    ]);
    expect(of(packets, 'fault')).toEqual([]);
    expect(of(packets, 'samples').reduce((sum, { count }) => sum + count, 0)).toBe(4480);
    // Up to the new beginning each sample stands at its index; after it the sender counts its values anew.
    const before = packets.slice(
      0,
      packets.findIndex((one) => one.kind === 'gap' && one.cause === 'disconnected'),
    );
    expect(provenGrid(before)).toBe(5000);
    // Stamps are those of the sender, unchanged: by its first clock, then by its second one.
    for (const { first, deviceTime = Number.NaN } of of(before, 'samples'))
      expect(deviceTime).toBeCloseTo(clockAtZero + first / 1000, 6);
    expect(of(packets, 'samples').at(-1)?.deviceTime).toBeLessThan(100);
    expect(of(packets, 'status').map(({ state }) => state)).toEqual(
      expect.arrayContaining(['connected', 'quiet', 'lost', 'returned', 'ended']),
    );
    // How the sender's clock stood to the station's is kept beside the samples.
    const clocks = of(packets, 'clock').flatMap(({ deviceClock }) => deviceClock ?? []);
    expect(clocks.length).toBeGreaterThan(0);
    for (const { roundTrip } of clocks) expect(roundTrip).toBeLessThanOrEqual(0.128);
  });
});
