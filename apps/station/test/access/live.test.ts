import {
  accessRoutes,
  type Hello,
  type LiveRole,
  livePath,
  liveRoutes,
  routes,
  toOperator,
  toWall,
} from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import WebSocket from 'ws';
import { addPeople, addRig, virtual } from '../live/set-up.ts';
import { by, inLab, type OnNetwork, stationOnNetwork } from './on-network.ts';

let station: OnNetwork;
let rig: string;
beforeAll(async () => {
  station = await stationOnNetwork();
  const set = { ...station, curve: async () => Promise.reject(new Error('not used')) };
  await addPeople(set);
  rig = await addRig(set, 'A', virtual(1));
});
afterAll(() => station.end());

interface Joined {
  readonly socket: WebSocket;
  readonly messages: Record<string, unknown>[];
  /** Code the station closed with. */
  readonly closed: Promise<number>;
  next(type: string): Promise<Record<string, unknown>>;
}

/** Opens a live connection over TLS and says hello. */
async function join(cookie: string | undefined, role: LiveRole, more: Partial<Hello> = {}): Promise<Joined> {
  const headers = cookie === undefined ? {} : { cookie };
  const socket = new WebSocket(`wss://${station.host}${livePath}`, { ca: station.ca(), headers });
  const messages: Record<string, unknown>[] = [];
  let wake = () => {};
  socket.on('message', (data) => {
    messages.push(JSON.parse(String(data)));
    wake();
  });
  const closed = new Promise<number>((done) => socket.on('close', done));
  await new Promise<void>((done, failed) => {
    socket.once('open', done);
    socket.once('error', failed);
  });
  const device = { id: 'me', name: 'what I call myself' };
  socket.send(JSON.stringify({ type: 'hello', protocol: 1, lab: 'lab', role, device, ...more }));
  const next = async (type: string) => {
    for (;;) {
      const found = messages.find((one) => one.type === type);
      if (found !== undefined) return found;
      const over = await Promise.race([new Promise<void>((done) => (wake = done)), closed.then((code) => ({ code }))]);
      if (over !== undefined) throw new Error(`closed with ${over.code} before ${type}`);
    }
  };
  return { socket, messages, closed, next };
}

const devices = () => station.ask(accessRoutes.devices, { params: inLab });
const revoke = (id: string) => station.ask(accessRoutes.revokeDevice, { params: { ...inLab, id }, body: { by } });

describe('the live connection from the network', () => {
  it('is closed to whoever is not paired', async () => {
    await expect(join(undefined, 'viewer')).rejects.toThrow('401');
    await expect(join('__Host-sthene-device=lab.0.0', 'viewer')).rejects.toThrow('401');
    const { cookie } = await station.pair('viewer');
    const forged = `${cookie.slice(0, -43)}${'A'.repeat(43)}`;
    await expect(join(forged, 'viewer')).rejects.toThrow('401');
  });

  it('knows a device as what it was paired as, whatever it says', async () => {
    const { id, cookie } = await station.pair('viewer', 'Coach');
    const one = await join(cookie, 'operator');
    expect(toOperator.parse(await one.next('snapshot'))).toMatchObject({
      you: { device: id, name: 'Coach', role: 'viewer' },
    });
    for (const message of [{ type: 'take-controls' }, { type: 'answer', id: 'a', question: 'q', choice: 'c' }])
      one.socket.send(JSON.stringify(message));
    await one.next('refused');
    one.socket.send(JSON.stringify({ type: 'probe', id: 'p', t0: 1 }));
    await one.next('probe');
    expect(one.messages.filter(({ type }) => type === 'refused')).toMatchObject([
      { code: 'not-an-operator' },
      { code: 'not-an-operator', id: 'a' },
    ]);
    expect(one.messages.some(({ type }) => type === 'controls')).toBe(false);
    one.socket.close();
  });

  it('gives an operator the controls', async () => {
    const { id, cookie } = await station.pair('operator', 'Tablet');
    const one = await join(cookie, 'operator');
    one.socket.send(JSON.stringify({ type: 'take-controls' }));
    expect(await one.next('controls')).toMatchObject({ controls: { holder: id, name: 'Tablet' } });
    one.socket.close();
    await one.closed;
  });

  it('shows a wall the wall alone: no list of people, no body weight, nothing that is not in its schema', async () => {
    const { cookie } = await station.pair('wall');
    const floor = await join(cookie, 'operator');
    expect(await floor.closed).toBe(4403);
    const other = await join(cookie, 'wall', { lab: 'example' });
    expect(await other.closed).toBe(4403);
    const wall = await join(cookie, 'wall');
    await station.ask(liveRoutes.openRig, { params: { ...inLab, id: rig }, body: { by } });
    await station.ask(liveRoutes.closeRig, { params: { ...inLab, id: rig }, body: { by } });
    wall.socket.send(JSON.stringify({ type: 'probe', id: 'p', t0: 1 }));
    await wall.next('probe');
    for (const message of wall.messages) toWall.parse(message);
    expect(JSON.stringify(wall.messages)).not.toMatch(/Alder|weight|mass|people/i);
    wall.socket.close();
  });

  it('ends at once when the device is taken off, in every window, and stays closed', async () => {
    const { id, cookie } = await station.pair('operator', 'Lost tablet');
    const [one, two, bystander] = [
      await join(cookie, 'operator'),
      await join(cookie, 'wall'),
      await join((await station.pair('viewer')).cookie, 'viewer'),
    ];
    await Promise.all([one.next('snapshot'), two.next('wall'), bystander.next('snapshot')]);
    one.socket.send(JSON.stringify({ type: 'take-controls' }));
    await one.next('controls');
    expect((await devices()).devices.find((device) => device.id === id)?.connections).toBe(2);
    const before = Date.now();
    await revoke(id);
    expect(await Promise.all([one.closed, two.closed])).toEqual([4403, 4403]);
    expect(Date.now() - before).toBeLessThan(10_000);
    expect((await devices()).devices.find((device) => device.id === id)).toMatchObject({
      connections: 0,
      revokedAt: expect.stringMatching(/^\d{4}-/),
    });
    expect((await station.over('/api/labs/lab/people', { cookie })).json.code).toBe('device-revoked');
    await expect(join(cookie, 'operator')).rejects.toThrow('401');
    // What it held is free again, and others go on.
    const free = () =>
      bystander.messages.some((one) => one.type === 'controls' && Object.keys(one.controls as object).length === 0);
    while (!free()) await new Promise((done) => setTimeout(done, 20));
    expect(bystander.socket.readyState).toBe(WebSocket.OPEN);
    bystander.socket.close();
  });
});

describe('an act from a device', () => {
  it('stands in the audit trail with the signed name and the device', async () => {
    const { id, cookie } = await station.pair('operator', 'Tablet');
    const body = { givenName: 'Lark', familyName: 'Finch' };
    const made = await station.over('/api/labs/lab/people', { method: 'POST', cookie, body });
    expect(made.status).toBe(200);
    const draft = { kind: 'clearance', granted: true, limb: 'both', from: '2026-01-01', note: '', by: 'Sorrel' };
    const gates = `/api/labs/lab/people/${(made.json as { id: string }).id}/gates`;
    expect((await station.over(gates, { method: 'POST', cookie, body: draft })).status).toBe(200);
    const { entries } = await station.ask(routes.audit, { params: inLab, query: { limit: 20 } });
    expect(entries.find(({ action }) => action === 'person.add')).toMatchObject({ device: 'Tablet' });
    expect(entries.find(({ action }) => action === 'gate.add')).toMatchObject({ who: 'Sorrel', device: 'Tablet' });
    expect(entries.find(({ action }) => action === 'device.pair')).not.toHaveProperty('device');
    const left = await station.over('/api/access', { method: 'DELETE', cookie });
    expect(left.headers['set-cookie']?.[0]).toMatch(/Expires=Thu, 01 Jan 1970/);
    expect((await station.over('/api/station', { cookie })).json.code).toBe('device-revoked');
    expect((await devices()).devices.find((device) => device.id === id)?.revokedAt).toBeDefined();
  });
});
