import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { accessRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Codes, plainCode } from '../../src/access/codes.ts';
import { Devices } from '../../src/access/devices.ts';
import { Throttle } from '../../src/access/throttle.ts';
import { Labs } from '../../src/labs/labs.ts';
import { by, inLab, type OnNetwork, stationOnNetwork } from './on-network.ts';

let station: OnNetwork;
beforeAll(async () => {
  station = await stationOnNetwork();
});
afterAll(() => station.end());

const pairWith = (code: string) => station.over('/api/pair', { method: 'POST', body: { code } });
const devices = async () => (await station.ask(accessRoutes.devices, { params: inLab })).devices;
const audited = async (action: string) =>
  (await station.ask(routes.audit, { params: inLab, query: { limit: 500 } })).entries.filter(
    (one) => one.action === action,
  );

describe('a one-time code', () => {
  it('pairs one device, once, as it was meant', async () => {
    const made = await station.code('operator', 'Tablet by the rack');
    expect(made.shown).toMatch(/^[0-9A-Z]{5}-[0-9A-Z]{5}$/);
    const answer = await pairWith(` ${made.shown.toLowerCase()} `);
    expect(answer.json).toMatchObject({ device: { name: 'Tablet by the rack', role: 'operator', lab: 'lab' } });
    expect(await pairWith(made.code)).toMatchObject({ status: 404, json: { code: 'code-wrong' } });
    expect(await devices()).toMatchObject([{ name: 'Tablet by the rack', role: 'operator', connections: 0 }]);
    expect((await station.ask(accessRoutes.devices, { params: inLab })).waiting).toEqual([]);
  });

  it('leaves a cookie that no script, no other site and no plain connection gets, and keeps only its hash', async () => {
    const { set, cookie } = await station.pair('viewer', 'Laptop');
    expect(set).toMatch(/^__Host-sthene-device=/);
    for (const rule of ['HttpOnly', 'Secure', 'SameSite=Strict', 'Path=/']) expect(set).toContain(rule);
    const secret = cookie.split('.').at(-1) ?? '';
    expect(Buffer.from(secret, 'base64url')).toHaveLength(32);
    const kept = readdirSync(`${station.folder}/lab`).filter((name) => name.startsWith('sthene.sqlite'));
    expect(kept.length).toBeGreaterThan(0);
    for (const name of kept) expect(readFileSync(`${station.folder}/lab/${name}`).includes(secret)).toBe(false);
    expect(readFileSync(`${station.folder}/station.log`, 'utf8')).not.toContain(secret);
  });

  it('can be withdrawn', async () => {
    const made = await station.code('wall');
    const left = await station.ask(accessRoutes.withdrawCode, { params: { ...inLab, id: made.id } });
    expect(left.waiting).toEqual([]);
    expect((await pairWith(made.code)).json.code).toBe('code-wrong');
  });

  it('is not needed on the station itself', async () => {
    const { code } = await station.code('wall');
    await expect(station.ask(accessRoutes.pair, { body: { code } })).rejects.toMatchObject({
      problem: { code: 'is-station' },
    });
  });
});

describe('codes', () => {
  let now = 0;
  const codes = new Codes(
    () => now,
    () => 'id',
  );
  const draft = { name: 'Wall', role: 'wall' as const, by };

  it('hold 50 bits, and are read as they were meant', () => {
    const made = Array.from({ length: 300 }, () => codes.make('lab', draft).code);
    expect(new Set(made).size).toBe(300);
    for (const code of made) expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{10}$/);
    expect(plainCode('o1i-L abc')).toBe('0111ABC');
  });

  it('are too late after ten minutes, and say so', () => {
    const { code } = codes.make('lab', draft);
    now += 10 * 60_000 - 1;
    const { code: other } = codes.make('lab', draft);
    now += 1;
    expect(codes.use(code)).toBe('code-expired');
    expect(codes.list('lab').length).toBeLessThanOrEqual(1);
    expect(codes.use(other)).toMatchObject({ lab: 'lab', role: 'wall', by });
    now += 60 * 60_000;
    expect(codes.use(code)).toBe('code-expired');
    codes.make('lab', draft);
    expect(codes.use(code)).toBe('code-wrong');
  });
});

describe('guessing', () => {
  it('makes the guesser wait longer and longer, and nobody else', () => {
    let now = 0;
    const throttle = new Throttle(() => now);
    const waits = Array.from({ length: 14 }, () => {
      throttle.wrong('192.168.7.66');
      const wait = throttle.wait('192.168.7.66');
      now += wait * 1000;
      return wait;
    });
    expect(waits).toEqual([0, 0, 0, 0, 1, 2, 4, 8, 16, 32, 60, 60, 60, 60]);
    throttle.wrong('192.168.7.66');
    expect(throttle.wait('::ffff:192.168.7.66')).toBe(60);
    expect(throttle.wait('192.168.7.67')).toBe(0);
    throttle.right('192.168.7.66');
    expect(throttle.wait('192.168.7.66')).toBe(0);
  });

  it('from many addresses of one IPv6 network counts as one', () => {
    const throttle = new Throttle(() => 0);
    for (let i = 1; i < 9; i++) throttle.wrong(`fd00:0:0:7::${i.toString(16)}`);
    expect(throttle.wait('fd00::7:aaaa:bbbb:cccc:dddd')).toBeGreaterThan(0);
    expect(throttle.wait('fd00:0:0:8::1')).toBe(0);
  });

  it('is told to wait, leaves a trace, and does not lock the station out', async () => {
    const { code } = await station.code('viewer', 'Late');
    let answer = await pairWith('AAAAA-AAAAA');
    for (let i = 0; i < 20 && answer.status !== 429; i++) answer = await pairWith('AAAAA-AAAAA');
    expect(answer.json).toMatchObject({ code: 'code-wait', next: expect.stringMatching(/Wait \d+ s/) });
    // Even the right code waits, else the answer would tell a guesser that it was right.
    expect((await pairWith(code)).json.code).toBe('code-wait');
    const { wrongCodes, waiting } = await station.ask(accessRoutes.devices, { params: inLab });
    expect(wrongCodes).toBeGreaterThan(4);
    expect(waiting).toMatchObject([{ name: 'A wall' }, { name: 'Late' }]);
  });
});

describe('what is done with devices', () => {
  it('is audited by who did it, without names', async () => {
    const [device] = await devices();
    const params = { ...inLab, id: device?.id ?? '' };
    await station.ask(accessRoutes.renameDevice, { params, body: { name: 'Tablet at rig A', by } });
    expect((await devices()).map(({ name }) => name)).toEqual(['Tablet at rig A', 'Tablet by the rack']);
    await station.ask(accessRoutes.revokeDevice, { params, body: { by } });
    for (const action of ['device.code', 'device.pair', 'device.rename', 'device.revoke'])
      expect((await audited(action))[0], action).toMatchObject({ who: by });
    expect((await audited('device.revoke'))[0]?.subject).toBe(`device ${params.id}`);
    expect((await station.ask(routes.audit, { params: inLab })).intact).toBe(true);
    await expect(
      station.ask(accessRoutes.renameDevice, { params: { ...inLab, id: 'nobody' }, body: { name: 'x', by } }),
    ).rejects.toMatchObject({ problem: { code: 'device-unknown' } });
  });
});

describe('a device that is taken off', () => {
  it('does not come back by a request that was under way on a new day', async () => {
    const folder = mkdtempSync(`${station.folder}-days-`);
    const labs = new Labs({ data: folder, application: 'sthene test' });
    await labs.create('lab', 'Lab');
    let now = Date.parse('2026-01-14T10:00:00Z');
    const devices = new Devices(labs, () => now);
    for (let i = 0; i < 5; i++) {
      const { code } = await devices.makeCode('lab', { name: `T${i}`, role: 'viewer', by });
      const { token, view } = await devices.pair(code, '192.168.7.8');
      now += 86_400_000;
      const id = view.device?.id ?? '';
      await Promise.all([devices.recognise(token), devices.revoke('lab', id, by), devices.recognise(token)]);
      expect(await devices.recognise(token)).toBe('revoked');
    }
    await labs.close();
    rmSync(folder, { recursive: true });
  });
});
