import { X509Certificate } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect, createServer, type Server } from 'node:tls';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { factsOf, type KeyedCertificate, makeAuthority, makeLeaf } from '../../src/network/certificates.ts';
import { permits, permittedFor } from '../../src/network/constraints.ts';
import { KeyFiles } from '../../src/network/key-files.ts';
import { namesOf } from '../../src/network/own-names.ts';
import { profileOf } from '../../src/network/profile.ts';

// What is made here is judged by another implementation than the one that made it: OpenSSL, as Node has it built in.

const own = { names: ['bench.local', 'bench'], addresses: ['192.168.7.20', '203.0.113.9'] };
const now = new Date();
let authority: KeyedCertificate;
let server: Server | undefined;
beforeAll(async () => {
  authority = await makeAuthority('Sthene authority of bench', permittedFor(own), now);
});
afterEach(() => {
  server?.close();
  server = undefined;
});

/** A handshake as `name` with a server that shows `leaf`, trusting the authority alone. @returns the error's code, or 'ok' */
async function handshake(leaf: KeyedCertificate, name: string, ca: string | undefined = authority.certificate) {
  server = createServer({ key: leaf.key, cert: leaf.certificate, minVersion: 'TLSv1.2' });
  server.on('tlsClientError', () => {});
  await new Promise<void>((done) => server?.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  const servername = /^[\d.]+$/.test(name) ? {} : { servername: name };
  return new Promise<string>((done) => {
    const socket = connect({
      port,
      host: '127.0.0.1',
      ...servername,
      ...(ca ? { ca } : {}),
      checkServerIdentity: check,
    });
    function check(_: string, peer: object) {
      const shown = (peer as { raw: Buffer }).raw;
      const certificate = new X509Certificate(shown);
      const fits = /^[\d.]+$/.test(name) ? certificate.checkIP(name) : certificate.checkHost(name);
      return fits === undefined ? Object.assign(new Error('mismatch'), { code: 'NAME_MISMATCH' }) : undefined;
    }
    socket.on('secureConnect', () => done(socket.authorized ? 'ok' : 'not authorized'));
    socket.on('error', (error: NodeJS.ErrnoException) => done(`${error.code} ${error.message}`));
  });
}

describe('the certificate authority', () => {
  it('is an authority on P-256 for ten years that can only vouch for servers', () => {
    const certificate = new X509Certificate(authority.certificate);
    expect(certificate.ca).toBe(true);
    expect(certificate.checkIssued(certificate)).toBe(true);
    expect(certificate.verify(certificate.publicKey)).toBe(true);
    expect(certificate.publicKey.asymmetricKeyDetails).toMatchObject({ namedCurve: 'prime256v1' });
    expect(certificate.keyUsage).toEqual(['1.3.6.1.5.5.7.3.1']);
    const years = (Date.parse(certificate.validTo) - now.getTime()) / (365.25 * 86_400_000);
    expect(years).toBeGreaterThan(9.9);
    expect(factsOf(authority.certificate).fingerprint).toBe(certificate.fingerprint256);
  });

  it('says itself what it may vouch for', () => {
    const { permitted } = factsOf(authority.certificate);
    for (const name of ['bench', 'bench.local', 'other.local', '192.168.1.1', '10.0.0.9', '203.0.113.9', 'fd12::7'])
      expect(permits(permitted, name), name).toBe(true);
    for (const name of ['bank.example', 'notlocal', 'local.example', '203.0.113.10', '8.8.8.8', '2001:db8::1'])
      expect(permits(permitted, name), name).toBe(false);
  });
});

describe('the certificate of the station', () => {
  it('stands for its names, for no more than 398 days', async () => {
    const leaf = new X509Certificate((await makeLeaf(authority, ['bench.local', '192.168.7.20'], now)).certificate);
    expect(leaf.subjectAltName).toBe('DNS:bench.local, IP Address:192.168.7.20');
    expect((Date.parse(leaf.validTo) - Date.parse(leaf.validFrom)) / 86_400_000).toBeLessThanOrEqual(398);
    expect(leaf.checkIssued(new X509Certificate(authority.certificate))).toBe(true);
    expect(leaf.ca).toBe(false);
  });

  it('is believed by whoever trusts the authority, under its own name only', async () => {
    const leaf = await makeLeaf(authority, ['bench.local', '192.168.7.20'], now);
    expect(await handshake(leaf, 'bench.local')).toBe('ok');
    expect(await handshake(leaf, '192.168.7.20')).toBe('ok');
    expect(await handshake(leaf, 'other.local')).toMatch('NAME_MISMATCH');
    expect(await handshake(leaf, '192.168.7.21')).toMatch('NAME_MISMATCH');
  });

  it('is not believed by anybody else', async () => {
    const leaf = await makeLeaf(authority, ['bench.local'], now);
    const stranger = await makeAuthority('Sthene authority of bench', permittedFor(own), now);
    expect(await handshake(leaf, 'bench.local', stranger.certificate)).toMatch(/UNABLE_TO|SELF_SIGNED|SIGNATURE/);
    expect(await handshake(leaf, 'bench.local', '')).toMatch(/UNABLE_TO|SELF_SIGNED|SIGNATURE/);
  });

  it.each(['bank.example', '203.0.113.10'])('for %s is refused although the authority signed it', async (name) => {
    const stolen = await makeLeaf(authority, [name], now);
    expect(await handshake(stolen, name)).toMatch(/permitted subtree violation/i);
  });
});

describe('the files of the authority', () => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-keys-'));
  const files = new KeyFiles(join(folder, 'network'));
  const path = (name: string) => join(folder, 'network', name);
  const mode = (name: string) => statSync(path(name)).mode & 0o777;

  it.skipIf(process.platform === 'win32')('can be read by their owner alone', async () => {
    const made = await files.ensureAuthority(own, now);
    await files.ensureLeaf(made, own, now);
    expect([mode('authority.pem'), mode('station.pem'), mode('')]).toEqual([0o600, 0o600, 0o700]);
    expect(await files.ensureAuthority(own, now)).toEqual(made);
  });

  it('get a new leaf when it ages, when names change and when it cannot be read, and else keep it', async () => {
    const made = await files.ensureAuthority(own, now);
    const first = await files.ensureLeaf(made, own, now);
    expect(await files.ensureLeaf(made, own, now)).toEqual(first);
    const later = new Date(now.getTime() + 61 * 86_400_000);
    const second = await files.ensureLeaf(made, own, later);
    expect(factsOf(second.certificate).until.getTime()).toBeGreaterThan(factsOf(first.certificate).until.getTime());
    const moved = { ...own, addresses: ['192.168.7.44', '8.8.8.8'] };
    const third = await files.ensureLeaf(made, moved, later);
    expect(factsOf(third.certificate).names).toEqual(['bench.local', 'bench', '192.168.7.44']);
    writeFileSync(path('station.pem'), 'half a fi');
    const fourth = await files.ensureLeaf(made, moved, later);
    expect(new X509Certificate(fourth.certificate).checkIssued(new X509Certificate(made.certificate))).toBe(true);
  });

  it('are never replaced when they are damaged', () => {
    const before = readFileSync(path('authority.pem'), 'utf8');
    writeFileSync(path('authority.pem'), before.slice(0, 300));
    expect(() => files.authority()).toThrow(expect.objectContaining({ code: 'authority-damaged' }));
    expect(readFileSync(path('authority.pem'), 'utf8')).toBe(before.slice(0, 300));
    rmSync(folder, { recursive: true });
  });
});

describe('names', () => {
  it('of a machine are those it can be asked for', () => {
    expect(namesOf('Bench')).toEqual(['bench.local', 'bench']);
    expect(namesOf('bench.lab.example')).toEqual(['bench.local', 'bench', 'bench.lab.example']);
    expect(namesOf('localhost')).toEqual([]);
    expect(namesOf('what a name')).toEqual([]);
  });

  it('cannot write into a profile', () => {
    const text = profileOf('a</string><key>b', Buffer.from('x'));
    expect(text).not.toContain('a</string><key>b');
  });
});
