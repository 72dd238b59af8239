import 'reflect-metadata';
import { createHash, randomBytes, webcrypto } from 'node:crypto';
import { isIP } from 'node:net';
import * as x509 from '@peculiar/x509';
import { decodeConstraints, encodeConstraints, type Permitted } from './constraints.ts';

/** A certificate and its private key, as PEM. */
export interface KeyedCertificate {
  readonly certificate: string;
  readonly key: string;
}

export interface CertificateFacts {
  readonly from: Date;
  readonly until: Date;
  /** SHA-256 over the DER, `AB:CD:...`, as devices show it. */
  readonly fingerprint: string;
  readonly subject: string;
  /** Names and addresses it stands for. */
  readonly names: readonly string[];
  readonly permitted: Permitted;
  /** Identifier of its own key, and of the key that signed it. */
  readonly ownKey: string | undefined;
  readonly authorityKey: string | undefined;
}

const algorithm = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' };
const day = 86_400_000;
/** Long, since every device has to be told by hand to trust it. */
export const authorityDays = 3_652;
/** Apple's systems accept at most 398 days of a server; a short time costs nothing where renewal is by itself. */
export const leafDays = 90;

x509.cryptoProvider.set(webcrypto as never);

/** A new authority: a key of its own, and a certificate that may only vouch for servers of `permitted`. */
export async function makeAuthority(name: string, permitted: Permitted, now: Date): Promise<KeyedCertificate> {
  const keys = await newKeys();
  const constraints = encodeConstraints(permitted);
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    ...dates(now, authorityDays),
    serialNumber: serial(),
    name: nameOf(name),
    keys,
    signingAlgorithm: algorithm,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.Extension(constraints.type, true, constraints.value),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  return { certificate: certificate.toString('pem'), key: await privatePem(keys) };
}

/** A station's own certificate for these names and addresses, signed by the authority, which should be allowed to vouch for all. */
export async function makeLeaf(
  authority: KeyedCertificate,
  names: readonly string[],
  now: Date,
): Promise<KeyedCertificate> {
  const issuer = new x509.X509Certificate(authority.certificate);
  const { until } = factsOf(authority.certificate);
  const keys = await newKeys();
  const { notBefore, notAfter } = dates(now, leafDays);
  const certificate = await x509.X509CertificateGenerator.create({
    notBefore,
    notAfter: new Date(Math.min(notAfter.getTime(), until.getTime())),
    serialNumber: serial(),
    subject: nameOf('Sthene station'),
    issuer: issuer.subjectName,
    publicKey: keys.publicKey,
    signingKey: await signingKey(authority.key),
    signingAlgorithm: algorithm,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension(
        names.map((value) => ({ type: isIP(value) === 0 ? ('dns' as const) : ('ip' as const), value })),
      ),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(issuer.publicKey),
    ],
  });
  return { certificate: certificate.toString('pem'), key: await privatePem(keys) };
}

/** What a certificate says. Throws where the text is none. */
export function factsOf(pem: string): CertificateFacts {
  const certificate = new x509.X509Certificate(pem);
  const names = certificate.getExtension(x509.SubjectAlternativeNameExtension)?.names.items ?? [];
  return {
    from: certificate.notBefore,
    until: certificate.notAfter,
    fingerprint: fingerprintOf(pem),
    subject: certificate.subjectName.getField('CN')[0] ?? '',
    names: names.map(({ value }) => value),
    permitted: decodeConstraints(certificate.getExtension('2.5.29.30')?.value),
    ownKey: certificate.getExtension(x509.SubjectKeyIdentifierExtension)?.keyId,
    authorityKey: certificate.getExtension(x509.AuthorityKeyIdentifierExtension)?.keyId,
  };
}

/** The bytes of a certificate. */
export const derOf = (pem: string): Buffer => Buffer.from(new x509.X509Certificate(pem).rawData);

const fingerprintOf = (pem: string): string =>
  (createHash('sha256').update(derOf(pem)).digest('hex').toUpperCase().match(/../g) ?? []).join(':');

const newKeys = async () =>
  (await webcrypto.subtle.generateKey(algorithm, true, ['sign', 'verify'])) as webcrypto.CryptoKeyPair;

const privatePem = async ({ privateKey }: webcrypto.CryptoKeyPair): Promise<string> =>
  x509.PemConverter.encode(await webcrypto.subtle.exportKey('pkcs8', privateKey), 'PRIVATE KEY');

const signingKey = async (pem: string) =>
  webcrypto.subtle.importKey('pkcs8', x509.PemConverter.decodeFirst(pem), algorithm, false, ['sign']) as never;

/** A day back: clocks of tablets that were never on the internet are wrong by hours. */
const dates = (now: Date, days: number) => ({
  notBefore: new Date(now.getTime() - day),
  notAfter: new Date(now.getTime() + (days - 1) * day),
});

/** 127 random bits, positive as RFC 5280 wants it. */
function serial(): string {
  const bytes = randomBytes(16);
  bytes[0] = ((bytes[0] ?? 0) & 0x7f) | 0x40;
  return bytes.toString('hex');
}

const nameOf = (commonName: string) => [{ CN: [commonName] }, { O: ['Sthene'] }];
