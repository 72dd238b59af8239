import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { get } from 'node:http';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect } from 'node:tls';
import { accessRoutes, livePath, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import WebSocket from 'ws';
import { startStation } from '../../src/index.ts';
import { by, inLab, type OnNetwork, roomAddress, stationOnNetwork } from './on-network.ts';

const elsewhere = Object.values(networkInterfaces())
  .flatMap((one) => one ?? [])
  .find(({ internal, family }) => !internal && family === 'IPv4')?.address;

let addresses = [roomAddress];
let station: OnNetwork;
beforeAll(async () => {
  station = await stationOnNetwork(() => ({ names: ['bench.local'], addresses }));
});
afterAll(() => station.end());

/** Status of a plain HTTP request, or why there is none. */
const plain = (host: string, port: number | string) =>
  new Promise<number | string>((done) => {
    get({ host, port, path: '/api/station', timeout: 20_000 }, (answer) => done(answer.statusCode ?? 0)).on(
      'error',
      (error: NodeJS.ErrnoException) => done(error.code ?? error.message),
    );
  });

describe('a station as it is installed', () => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-closed-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('is not on the network, and makes no keys', async () => {
    const closed = await startStation({ port: 0, data: folder });
    expect(await closed.network()).toMatchObject({ on: false, open: false, addresses: [] });
    expect(existsSync(join(folder, 'network'))).toBe(false);
    await closed.close();
  });

  it.each(['0.0.0.0', '::', '192.168.7.20', '::ffff:192.168.7.20'])(
    'refuses to listen on %s without TLS',
    async (host) => {
      await expect(startStation({ port: 0, data: folder, host })).rejects.toMatchObject({ code: 'plain-http-refused' });
    },
  );

  it.skipIf(elsewhere === undefined)('does not answer plain requests to another address of the machine', async () => {
    expect(await plain(elsewhere ?? '', new URL(station.address).port)).toBe('ECONNREFUSED');
    expect(await plain(elsewhere ?? '', station.port)).toBe('ECONNRESET');
  });

  it('does not answer plain requests at the door', async () => {
    expect(await plain(roomAddress, station.port)).toBe('ECONNRESET');
  });
});

describe('the door', () => {
  it('speaks TLS 1.2 and 1.3, and nothing older', async () => {
    const speak = (version: 'TLSv1.1' | 'TLSv1.2' | 'TLSv1.3') =>
      new Promise<string>((done) => {
        const options = {
          host: roomAddress,
          port: station.port,
          ca: station.ca(),
          minVersion: version,
          maxVersion: version,
        };
        // Old versions must be offered in earnest, else the client is the one that refuses.
        const socket = connect(
          { ...options, ...(version === 'TLSv1.1' ? { ciphers: 'DEFAULT@SECLEVEL=0' } : {}) },
          () => {
            done(socket.getProtocol() ?? '');
            socket.destroy();
          },
        );
        socket.on('error', (error: NodeJS.ErrnoException) => done(error.code ?? 'error'));
      });
    expect(await speak('TLSv1.3')).toBe('TLSv1.3');
    expect(await speak('TLSv1.2')).toBe('TLSv1.2');
    expect(await speak('TLSv1.1')).toMatch(/ALERT|PROTOCOL/);
  });

  it.each([
    'evil.example',
    'localhost',
    `localhost:PORT`,
    'bench.local',
    'bench.local.evil.example:PORT',
    '192.168.7.9:PORT',
  ])('does not answer to the name %s', async (name) => {
    const { cookie } = await station.pair('operator');
    const host = name.replace('PORT', String(station.port));
    const answer = await station.over('/api/station', { cookie, headers: { host } });
    expect(answer).toMatchObject({ status: 403, json: { code: 'foreign-origin' } });
  });

  it('answers to its own names, and to its own pages alone', async () => {
    const { cookie } = await station.pair('operator');
    const own = [
      `https://${station.host}`,
      `https://bench.local:${station.port}`,
      `HTTPS://BENCH.local:${station.port}`,
    ];
    for (const origin of own) {
      const host = new URL(origin).host;
      expect((await station.over('/api/station', { cookie, headers: { host, origin } })).status, origin).toBe(200);
    }
    const foreign = [
      'https://evil.example',
      `http://${station.host}`,
      'null',
      `https://evil.example:${station.port}`,
      station.host,
    ];
    for (const origin of foreign) {
      const answer = await station.over('/api/labs/lab/people', {
        method: 'POST',
        cookie,
        headers: { origin },
        body: {},
      });
      expect(answer, origin).toMatchObject({ status: 403, json: { code: 'foreign-origin' } });
      const socket = new WebSocket(`wss://${station.host}${livePath}`, {
        ca: station.ca(),
        headers: { cookie, origin },
      });
      expect(await new Promise((done) => socket.on('error', (error) => done(error.message))), origin).toMatch('403');
    }
    const headers = { 'sec-fetch-site': 'cross-site' };
    expect((await station.over('/api/pair', { method: 'POST', headers, body: { code: 'x' } })).json.code).toBe(
      'foreign-origin',
    );
  });

  it('gives the certificate of the authority to whoever asks, and no key', async () => {
    const file = await station.over('/api/network/sthene-authority.crt');
    expect(file.headers['content-type']).toBe('application/x-x509-ca-cert');
    const profile = await station.over('/api/network/sthene-authority.mobileconfig');
    expect(profile.headers['content-type']).toBe('application/x-apple-aspen-config');
    const inside = /<data>([^<]+)<\/data>/.exec(profile.text)?.[1]?.replace(/\s/g, '') ?? '';
    const [, body = ''] = /BEGIN CERTIFICATE-----([^-]+)-----END/.exec(station.ca()) ?? [];
    expect(inside).toBe(body.replace(/\s/g, ''));
    expect(file.text + profile.text).not.toContain('PRIVATE');
  });

  it('takes a new address on by itself, and keeps its authority', async () => {
    const before = await station.network();
    addresses = [roomAddress, '192.168.7.21', '198.51.100.4'];
    const after = await station.network();
    expect(after.certificate?.names).toEqual(['bench.local', roomAddress, '192.168.7.21']);
    expect(after.uncovered).toEqual(['198.51.100.4']);
    expect(after.authority).toEqual(before.authority);
    const names = await new Promise<string | undefined>((done, failed) => {
      const socket = connect({ host: roomAddress, port: station.port, ca: station.ca() }, () => {
        done(socket.getPeerCertificate().subjectaltname);
        socket.destroy();
      });
      socket.on('error', failed);
    });
    expect(names).toContain('192.168.7.21');
  });

  it('closes on a word of the station, ends what came through it, and opens again as the same', async () => {
    const { cookie } = await station.pair('viewer');
    const socket = new WebSocket(`wss://${station.host}${livePath}`, { ca: station.ca(), headers: { cookie } });
    await new Promise((done) => socket.once('open', done));
    const closed = new Promise((done) => socket.once('close', done));
    const off = await station.ask(accessRoutes.switchNetwork, { body: { on: false, by } });
    expect(off).toMatchObject({ on: false, open: false, addresses: [] });
    await closed;
    expect(await plain(roomAddress, station.port)).toBe('ECONNREFUSED');
    expect(JSON.parse(readFileSync(join(station.folder, 'network', 'network.json'), 'utf8'))).toMatchObject({
      on: false,
    });
    const again = await station.ask(accessRoutes.switchNetwork, { body: { on: true, by } });
    expect(again).toMatchObject({ on: true, open: true, authority: off.authority });
    const { entries } = await station.ask(routes.audit, { params: inLab });
    expect(entries.slice(0, 2).map(({ action, who }) => [action, who])).toEqual([
      ['network.open', by],
      ['network.close', by],
    ]);
  });
});
