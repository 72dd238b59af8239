import { liveRoutes, routes } from '@sthene/contract';
import { afterEach, describe, expect, it } from 'vitest';
import { onlyPort } from '../../../../packages/capture/test/streaming/bench.ts';
import { freePort } from '../../../../tests/streaming/free-port.ts';
import { ask, clockOf, type Found, find, StreamReader } from '../../../../tests/streaming/reader.ts';
import { systemClock } from '../../src/live/clock.ts';
import type { LiveLab } from '../../src/live/live-lab.ts';
import type { LivePorts } from '../../src/live/ports.ts';
import { stationPorts } from '../../src/live/station-ports.ts';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { lockstepPorts } from './lockstep.ts';
import { addPeople, addRig, by, inLab, twoPulls, virtual } from './set-up.ts';

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

interface Offering {
  readonly station: StationUnderTest;
  readonly port: number;
  readonly rig: string;
  live(): LiveLab;
  switch(on: boolean): Promise<unknown>;
}

async function offering(ports: LivePorts = stationPorts): Promise<Offering> {
  const port = await freePort();
  let live: LiveLab | undefined;
  const station = await stationUnderTest(undefined, undefined, {
    ...ports,
    streamNetwork: onlyPort(port),
    watch: (lab) => {
      ports.watch?.(lab);
      live = lab as LiveLab;
    },
  });
  ends.push(() => station.end());
  await station.ask(routes.createLab, { params: inLab, body: { name: 'Boathouse' } });
  const rig = await addRig(station, 'A', virtual(1));
  return {
    station,
    port,
    rig,
    live: () => live as LiveLab,
    switch: (on) => station.ask(liveRoutes.changeRigOutlet, { params: { ...inLab, id: rig }, body: { on, by } }),
  };
}

const opened = ({ station, rig }: Offering) =>
  station.ask(liveRoutes.openRig, { params: { ...inLab, id: rig }, body: { by } });
const named = (all: readonly Found[], type: string): Found => {
  const found = all.find((one) => one.type === type);
  if (found === undefined) throw new Error(`no stream of the type ${type}`);
  return found;
};
const reading = (found: Found, options?: ConstructorParameters<typeof StreamReader>[1]): StreamReader => {
  const reader = new StreamReader(found, options);
  ends.push(() => reader.close());
  return reader;
};

// promises in real time: a busy machine may need another try, never a longer one
describe('forces and marks for other programs', { retry: 1 }, () => {
  it('are offered to nobody until a rig offers them, and then found by their conditions', async () => {
    const offer = await offering();
    const { station, port, rig } = offer;
    await opened(offer);
    expect(await find(port)).toEqual([]);
    const view = () => station.ask(liveRoutes.rigOutlet, { params: { ...inLab, id: rig } });
    expect(await view()).toEqual({ on: false, streams: [] });
    expect(await station.ask(liveRoutes.outletSettings, { params: inLab })).toEqual({
      network: false,
      athleteCode: false,
    });

    await offer.switch(true);
    const all = await find(port);
    expect(
      all
        .map(({ name, type, channels, format, rate }) => [name, type, channels, format, rate] as const)
        .sort(([, a], [, b]) => a.localeCompare(b)),
    ).toEqual([
      ['Rig A (simulated)', 'Force', 3, 'float32', 1000],
      ['Rig A (simulated) marks', 'Markers', 1, 'string', 0],
    ]);
    const forces = named(all, 'Force');
    expect(forces.xml).toContain('<version>1.10</version>');
    expect(forces.xml).toContain('<desc/>');
    expect(forces.sourceId).toBe(`sthene-${rig}-forces`);
    expect(await find(port, "session_id='default' and type='Force'")).toHaveLength(1);
    expect(await find(port, "type='EEG'")).toEqual([]);
    // A question that is not understood is not answered.
    expect(await find(port, 'count(desc)=1')).toEqual([]);
    // Its own port answers as well: senders of one machine share the port for everybody.
    expect((await find(forces.servicePort)).map(({ uid }) => uid)).toEqual([forces.uid]);
    const full = await ask(forces.dataPort, 'LSL:fullinfo\r\n');
    expect(full).toContain('<channel><label>total</label><unit>N</unit><type>Force</type></channel>');
    expect(full.match(/<label>[^<]*/g)).toEqual(['<label>total', '<label>left', '<label>right']);
    // The station does not offer its own streams to itself.
    expect((await station.ask(liveRoutes.streams, { params: inLab, query: {} })).streams).toEqual([]);

    const { entries } = await station.ask(routes.audit, { params: inLab, query: { offset: 0, limit: 20 } });
    expect(entries.find(({ subject }) => subject === `setting outlet.rig.${rig}`)).toMatchObject({
      who: by,
      action: 'setting.set',
    });

    await offer.switch(false);
    expect(await find(port)).toEqual([]);
    expect(await view()).toEqual({ on: false, streams: [] });
  });

  it('are the forces of the journal, sample by sample, in newtons, stamped by a clock that can be asked', async () => {
    const offer = await offering();
    await offer.switch(true);
    await opened(offer);
    const forces = named(await find(offer.port), 'Force');
    const little = reading(forces);
    const big = reading(forces, { big: true });
    await little.until('2000 rows', () => little.rows.length > 2000);
    await big.until('as many', () => big.rows.length > 2000);
    expect(little.head).toContain(`LSL/110 200 OK\r\nUID: ${forces.uid}\r\nByte-Order: 1234\r\n`);
    expect(big.head).toContain('Byte-Order: 4321');
    expect(await offer.station.ask(liveRoutes.rigOutlet, { params: { ...inLab, id: offer.rig } })).toMatchObject({
      on: true,
      streams: [
        { type: 'Force', channels: ['total', 'left', 'right'], receivers: 2 },
        { type: 'Markers', receivers: 0 },
      ],
    });
    const recent = offer.live().rigs.get(offer.rig)?.runtime.stream.recent;
    if (recent === undefined) throw new Error('nothing came');
    // The rows are a stretch of what the rig holds, in either byte order.
    const left = recent.copy(0, 0, recent.next).map((force) => Math.fround(force) + 0);
    for (const { rows } of [little, big]) {
      const at = left.findIndex((value, i) =>
        rows.slice(0, 50).every((row, k) => row.values[1] === left[i + k] && value !== undefined),
      );
      expect(at).toBeGreaterThanOrEqual(0);
      rows.slice(0, 2000).forEach(({ values }, i) => {
        const [l, r] = [recent.copy(0, at + i, at + i + 1)[0] ?? 0, recent.copy(1, at + i, at + i + 1)[0] ?? 0];
        // Zero has no sign here.
        expect(values).toEqual([l + r, l, r].map((force) => Math.fround(force) + 0));
      });
    }
    // Evenly spaced, going forward, and of a clock whose answers agree with the station's.
    const times = little.rows.map(({ time }) => time);
    for (let i = 1; i < times.length; i++) {
      const step = (times[i] as number) - (times[i - 1] as number);
      expect(step).toBeGreaterThan(0);
      expect(step).toBeLessThan(0.006);
    }
    const own = () => Number(systemClock.monotonic()) / 1e9;
    const { offset, roundTrip } = await clockOf(forces.servicePort, own);
    expect(Math.abs(offset)).toBeLessThanOrEqual(roundTrip / 2 + 1e-6);
    expect(Math.abs(own() - (little.rows.at(-1)?.time ?? 0))).toBeLessThan(1);
  });

  it('go to nobody who asks for another stream, another version, or in another language', async () => {
    const offer = await offering();
    await offer.switch(true);
    await opened(offer);
    const forces = named(await find(offer.port), 'Force');
    expect(await ask(forces.dataPort, 'LSL:streamfeed/110 nobody\r\n\r\n')).toMatch(/^LSL\/110 404 /);
    expect(await ask(forces.dataPort, `LSL:streamfeed/200 ${forces.uid}\r\n\r\n`)).toMatch(/^LSL\/110 505 /);
    expect(await ask(forces.dataPort, 'GET / HTTP/1.1\r\n\r\n')).toMatch(/^LSL\/110 400 /);
    expect(await ask(forces.dataPort, `LSL:streamfeed/110 ${'x'.repeat(9000)}`)).toMatch(/^LSL\/110 400 /);
    // Who reads nothing any more is not waited for, and does not hold up the others.
    const slow = reading(forces);
    await slow.until('a row', () => slow.rows.length > 0);
    slow.stall();
    const other = reading(forces);
    await other.until('1000 rows', () => other.rows.length > 1000);
  });

  it('stay on this machine until the lab lets the network in, and then also what was open', async () => {
    const offer = await offering();
    await offer.switch(true);
    await opened(offer);
    const { outlets } = offer.live();
    const before = named(await find(offer.port), 'Force');
    expect(before.xml).toContain('<v4address>127.0.0.1</v4address>');
    const reader = reading(before);
    await reader.until('a row', () => reader.rows.length > 0);
    const allow = (network: boolean) =>
      offer.station.ask(liveRoutes.changeOutletSettings, { params: inLab, body: { network, athleteCode: false, by } });
    expect(await allow(true)).toEqual({ network: true, athleteCode: false });
    await reader.until('the end of the old one', () => reader.closed);
    const after = named(await find(offer.port), 'Force');
    expect([after.uid === before.uid, after.sourceId === before.sourceId]).toEqual([false, true]);
    expect(after.xml).toContain('<v4address/>');
    expect(outlets.settings).toEqual({ network: true, athleteCode: false });
    await allow(false);
    expect(named(await find(offer.port), 'Force').xml).toContain('<v4address>127.0.0.1</v4address>');
    const { entries } = await offer.station.ask(routes.audit, { params: inLab, query: { offset: 0, limit: 20 } });
    expect(entries.filter(({ subject }) => subject === 'setting outlet.network')).toHaveLength(2);
  });

  it('tell phases, cues and verdicts of a day without a name, codes only where allowed, and no weight that may not be told', {
    timeout: 240_000,
  }, async () => {
    const offer = await offering(lockstepPorts());
    const { station, rig } = offer;
    await offer.switch(true);
    await station.ask(liveRoutes.changeFloorSettings, { params: inLab, body: { bodyWeight: 'nobody', by } });
    await opened(offer);
    const all = await find(offer.port, '', 1000);
    const forces = reading(named(all, 'Force'));
    await forces.until('rows', () => forces.rows.length > 0);
    const people = await addPeople(station);
    const day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: {
        ...{ date: '2026-03-02', rigs: [rig], people, handsFree: true, by },
        tests: [{ ...twoPulls, efforts: Array(3).fill({ kind: 'maximal' as const }) }],
      },
    });
    const viewer = await LiveClient.join(station.address, 'viewer', 'tablet-1');
    ends.push(() => viewer.close());
    await station.ask(liveRoutes.closeRig, { params: { ...inLab, id: rig }, body: { by } });
    await forces.until('the end', () => forces.closed);
    await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
    const again = await find(offer.port, '', 1500);
    const heard = reading(named(again, 'Markers'));
    const felt = reading(named(again, 'Force'));
    const texts = () => heard.rows.map(({ values }) => String(values[0]));
    await heard.until('a verdict', () => texts().some((text) => text.startsWith('verdict ')), 120_000);
    await station.ask(liveRoutes.changeOutletSettings, {
      params: inLab,
      body: { network: false, athleteCode: true, by },
    });
    await heard.until('a code', () => texts().some((text) => text.startsWith('athlete ')), 120_000);
    const verdicts = () => texts().filter((text) => text.startsWith('verdict ')).length;
    await heard.until('all verdicts', () => verdicts() >= 3, 120_000);

    // Who listens may come in the middle of the first effort; the second is heard whole.
    const verdictsAt = texts().flatMap((text, i) => (text.startsWith('verdict ') ? [i] : []));
    const first = texts().slice(0, (verdictsAt[0] as number) + 1);
    expect(first.some((text) => text.startsWith('athlete '))).toBe(false);
    const second = texts().slice((verdictsAt[0] as number) + 1, (verdictsAt[1] as number) + 1);
    const order = ['phase ready', 'phase cue', 'cue', 'phase pull'].map((text) => second.lastIndexOf(text));
    expect([...order].sort((a, b) => a - b)).toEqual(order);
    expect(order.every((at) => at >= 0)).toBe(true);
    for (const text of texts()) expect(text).toMatch(/^(phase [a-z-]+|zero|cue|verdict [a-z-]+|athlete [A-Z0-9-]+)$/);
    for (const name of ['Wren', 'Alder', 'Heron', 'Birch', 'Otter', 'Cole'])
      expect(texts().join(' ')).not.toContain(name);
    // From stepping on to the verdict no force went out. (In the first two seconds the plates are not known to be played.)
    const said = texts();
    const stamped = felt.rows.filter(({ stamped: own }) => own);
    const judged = said.flatMap((text, i) => (text.startsWith('verdict ') ? [i] : []));
    for (const end of judged.slice(1, 3)) {
      const begin = said.lastIndexOf('phase stand-still', end);
      const [from, to] = [heard.rows[begin]?.time ?? Number.NaN, heard.rows[end]?.time ?? Number.NaN];
      const within = stamped.filter(({ time }) => time > from + 0.02 && time < to - 0.02);
      expect(within.length, said.slice(begin, end + 1).join()).toBeGreaterThan(5);
      expect(within.every(({ values }) => values.every((value) => Number.isNaN(value)))).toBe(true);
    }
    expect(forces.rows.every(({ values }) => values.every((value) => Number.isFinite(value)))).toBe(true);
  });
});
