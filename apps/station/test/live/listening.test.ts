import { createServer, type Server, type Socket } from 'node:net';
import { liveRoutes, routes, type SourceListening } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { by, inLab } from './set-up.ts';

/** A device that sends a counter and two plates as text, a line a millisecond, to whoever calls. */
describe('listening to a source while it is described', () => {
  let station: StationUnderTest;
  let server: Server;
  let timer: NodeJS.Timeout;
  let port = 0;
  const sockets = new Set<Socket>();
  beforeAll(async () => {
    let n = 0;
    server = createServer((socket) => {
      sockets.add(socket);
      socket.on('error', () => {});
      socket.on('close', () => sockets.delete(socket));
    });
    timer = setInterval(() => {
      let text = '';
      for (let i = 0; i < 10; i++, n++)
        text += `${n};${(400 + 5 * Math.sin(n / 50)).toFixed(1)};${(390 - n / 1e4).toFixed(1)}\n`;
      for (const socket of sockets) socket.write(text);
    }, 10);
    await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
    ({ port } = server.address() as { port: number });
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: inLab, body: { name: 'Boathouse' } });
  });
  afterAll(async () => {
    clearInterval(timer);
    await station?.end();
    for (const socket of sockets) socket.destroy();
    await new Promise((done) => server.close(done));
  });

  const transport = () => ({ kind: 'tcp', mode: 'connect', host: '127.0.0.1', port });
  const listen = (description: unknown) =>
    station.ask(liveRoutes.listenSource, { params: { ...inLab, id: 'a' }, body: { description } });
  const until = async (description: unknown, when: (view: SourceListening) => boolean): Promise<SourceListening> => {
    for (let i = 0; i < 200; i++) {
      const view = await listen(description);
      if (when(view)) return view;
      await new Promise((done) => setTimeout(done, 50));
    }
    throw new Error(`never: ${JSON.stringify(await listen(description))}`);
  };

  it('shows bytes of a half-written description, proposes a layout, and reads by it over the same link', async () => {
    const found = await until({ transport: transport() }, ({ candidates }) => candidates.length > 0);
    expect(found).toMatchObject({ state: 'bytes', channels: [], counts: { samples: 0 } });
    expect(Buffer.from(found.bytes!.last, 'hex').toString()).toContain(';');
    expect(found.faults.map(({ path }) => path)).toContain('layout');
    expect(found.candidates).toHaveLength(1);
    const [best] = found.candidates;
    expect(best).toMatchObject({ words: 'Text, 2 channels between semicolons' });
    expect(best!.reasons.length).toBeGreaterThan(0);
    const view = await until(best!.description, ({ rate }) => rate !== undefined);
    expect(view).toMatchObject({ state: 'measuring', faults: [], counts: { missing: 0, unreadable: 0 } });
    expect(view.channels.map(({ name }) => name)).toEqual(['channel 1', 'channel 2']);
    expect(view.pieces!.right).toBe(view.pieces!.found);
    expect(sockets.size).toBe(1);
  });

  it('hears the signals while a matrix is being written, and what it makes of them once it fits', async () => {
    const channel = (name: string) => ({
      ...{ name, plate: 'plate', side: 'none', axis: 'other', unit: 'mV/V', scale: 1, offset: 0 },
      rawRange: [-1000, 395],
    });
    const described = (matrix: unknown) => ({
      ...{ schema: 'sthene.source/1', name: 'Bridges', transport: transport(), rate: 1000 },
      layout: {
        kind: 'lines',
        delimiter: ';',
        fields: [{ role: 'counter' }, { role: 'channel', channel: 'a' }, { role: 'channel', channel: 'b' }],
      },
      channels: [channel('a'), channel('b')],
      calibration: [
        {
          signals: ['a', 'b'],
          matrix,
          channels: [
            { name: 'Fz', plate: 'plate', side: 'none', axis: 'z', unit: 'N' },
            { name: 'My', plate: 'plate', side: 'none', axis: 'my', unit: 'N.m' },
          ],
        },
      ],
    });
    const half = await until(described([[1, 1], [0.5]]), ({ channels }) => channels.length > 0);
    expect(half.channels.map(({ name, made }) => [name, made])).toEqual([
      ['a', false],
      ['b', false],
    ]);
    expect(half.faults).toEqual([
      {
        path: 'calibration.0.matrix.1',
        code: 'source-matrix-size',
        words: expect.stringContaining('one number for each signal'),
        next: expect.stringContaining('in the order of the signals'),
      },
    ]);
    const whole = described([
      [1, 1],
      [0, 0.5],
    ]);
    const { channels, faults } = await until(whole, (view) => view.channels.length === 4 && view.rate !== undefined);
    expect(faults).toEqual([]);
    expect(channels.map(({ name, unit, made, saturated }) => [name, unit, made, saturated])).toEqual([
      // The first plate sways about 400, beyond the end of the described range; the second is under 391.
      ['a', 'mV/V', false, true],
      ['b', 'mV/V', false, false],
      ['Fz', 'N', true, true],
      ['My', 'N.m', true, false],
    ]);
    const [a, b, fz, my] = channels;
    expect(fz!.last).toBeCloseTo(a!.last + b!.last, 9);
    expect(my!.last).toBeCloseTo(0.5 * b!.last, 9);

    const keep = (matrix: unknown) =>
      station.ask(liveRoutes.createSource, { params: inLab, body: { description: described(matrix) as never, by } });
    await expect(keep([[1, 1]])).rejects.toMatchObject({ problem: { status: 422, code: 'source-matrix-size' } });
    const kept = await keep(whole.calibration[0]!.matrix);
    expect(kept.description.calibration).toEqual(whole.calibration);
  });

  it('lets go of the device when told, and by itself when nobody asks any more', async () => {
    const gone = async () => {
      for (let i = 0; i < 400 && sockets.size > 0; i++) await new Promise((done) => setTimeout(done, 25));
      return sockets.size;
    };
    await listen({ transport: transport() });
    const stop = () => station.ask(liveRoutes.stopListening, { params: { ...inLab, id: 'a' } });
    expect(await stop()).toEqual({ stopped: true });
    expect(await gone()).toBe(0);
    expect(await stop()).toEqual({ stopped: false });
    await until({ transport: transport() }, () => sockets.size === 1);
    expect(await gone()).toBe(0);
  });

  it('refuses what cannot be listened to by a code, and a device that an open rig holds', async () => {
    await expect(listen({ transport: { kind: 'tcp' } })).rejects.toMatchObject({
      problem: { status: 400, code: 'source-schema-unknown' },
    });
    const [best] = (await until({ transport: transport() }, ({ candidates }) => candidates.length > 0)).candidates;
    await station.ask(liveRoutes.stopListening, { params: { ...inLab, id: 'a' } });
    const source = await station.ask(liveRoutes.createSource, {
      params: inLab,
      body: { description: best!.description, by },
    });
    const rig = await station.ask(liveRoutes.createRig, {
      params: inLab,
      body: { name: 'Rack', letter: 'A', shape: 'circle', sources: [source.id], notes: '', by },
    });
    await station.ask(liveRoutes.openRig, { params: { ...inLab, id: rig.id }, body: { by } });
    await expect(listen(best!.description)).rejects.toMatchObject({ problem: { status: 409, code: 'source-in-use' } });
    await station.ask(liveRoutes.closeRig, { params: { ...inLab, id: rig.id }, body: { by } });
    expect((await listen(best!.description)).state).not.toBe('down');
  });

  it('listens once for a script', async () => {
    const description = {
      schema: 'sthene.source/1',
      name: 'V',
      transport: { kind: 'virtual', script: 'fernwater-three', seed: 1 },
      channels: [],
      rate: 1000,
    };
    const view = await station.ask(liveRoutes.probeSource, { params: inLab, body: { description, seconds: 0.5 } });
    expect(view).toMatchObject({ state: 'measuring', candidates: [] });
    expect(view.bytes).toBeUndefined();
    expect(view.counts.samples).toBeGreaterThan(100);
  });
});
