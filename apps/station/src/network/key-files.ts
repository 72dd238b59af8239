import { createPrivateKey } from 'node:crypto';
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { ProblemError } from '../server/problem-error.ts';
import { factsOf, type KeyedCertificate, makeAuthority, makeLeaf } from './certificates.ts';
import { permits, permittedFor } from './constraints.ts';
import type { OwnNames } from './own-names.ts';

/** A leaf with less than this to go is replaced, ms. */
const renewBefore = 30 * 86_400_000;

/**
 * Authority and certificate of a station, in a folder only its user can read. The authority is made once and never replaced
 * by itself: every paired device trusts this one.
 */
export class KeyFiles {
  readonly #folder: string;

  /** @param folder made when first written to */
  constructor(folder: string) {
    this.#folder = folder;
  }

  /** The authority, if it was made. Throws `authority-damaged` where its files cannot be used. */
  authority(): KeyedCertificate | undefined {
    return this.#read('authority');
  }

  async ensureAuthority(own: OwnNames, now: Date): Promise<KeyedCertificate> {
    const there = this.authority();
    if (there !== undefined) return there;
    const label = own.names.find((name) => !name.includes('.')) ?? 'this station';
    const made = await makeAuthority(`Sthene authority of ${label}`, permittedFor(own), now);
    this.#write('authority', made);
    return made;
  }

  /** The station's certificate: the kept one while it is fresh and stands for every present name, else a new one. */
  async ensureLeaf(authority: KeyedCertificate, own: OwnNames, now: Date): Promise<KeyedCertificate> {
    const { permitted } = factsOf(authority.certificate);
    const names = [...own.names, ...own.addresses].filter((name) => permits(permitted, name));
    const there = this.#readable('station');
    if (there !== undefined && isGood(there, authority, names, now)) return there;
    const made = await makeLeaf(authority, names, now);
    this.#write('station', made);
    return made;
  }

  /** Key and certificate lie in one file, so that a crash cannot leave one without the other. */
  #read(name: string): KeyedCertificate | undefined {
    const path = this.#path(name);
    if (!existsSync(path)) return undefined;
    try {
      // A copy of the folder may have lost the mode; whoever can read this key can pose as the station.
      chmodSync(path, 0o600);
      const text = readFileSync(path, 'utf8');
      const pair = { key: block(text, 'PRIVATE KEY'), certificate: block(text, 'CERTIFICATE') };
      createPrivateKey(pair.key);
      factsOf(pair.certificate);
      return pair;
    } catch {
      throw new ProblemError(
        500,
        'authority-damaged',
        `The station's certificate authority in ${path} cannot be used.`,
        'Bring the file back from a backup. Without one, move it away and switch the network on again: a new authority is made, and every device has to be told to trust it.',
      );
    }
  }

  /** The leaf is worth nothing by itself: one that cannot be read is simply made again. */
  #readable(name: string): KeyedCertificate | undefined {
    try {
      return this.#read(name);
    } catch {
      return undefined;
    }
  }

  #write(name: string, { key, certificate }: KeyedCertificate): void {
    mkdirSync(this.#folder, { recursive: true, mode: 0o700 });
    const path = this.#path(name);
    rmSync(`${path}.new`, { force: true });
    const file = openSync(`${path}.new`, 'wx', 0o600);
    writeFileSync(file, `${key}\n${certificate}\n`);
    fsyncSync(file);
    closeSync(file);
    renameSync(`${path}.new`, path);
  }

  #path(name: string): string {
    return join(this.#folder, `${name}.pem`);
  }
}

function isGood(leaf: KeyedCertificate, authority: KeyedCertificate, names: readonly string[], now: Date): boolean {
  const { from, until, names: held, authorityKey } = factsOf(leaf.certificate);
  const standsFor = names.length === held.length && names.every((name) => held.includes(name));
  const fresh = from <= now && until.getTime() - now.getTime() > renewBefore;
  return standsFor && fresh && authorityKey === factsOf(authority.certificate).ownKey;
}

/** One block of a PEM file. */
function block(text: string, label: string): string {
  const found = new RegExp(`-----BEGIN ${label}-----[^-]+-----END ${label}-----`).exec(text)?.[0];
  if (found === undefined) throw new Error(`there is no ${label}`);
  return found;
}
