import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { NetworkView } from '@sthene/contract';
import type { FastifyBaseLogger, FastifyInstance } from 'fastify';
import { ProblemError } from '../server/problem-error.ts';
import type { KeyedCertificate } from './certificates.ts';
import { listenOnNetwork } from './listen.ts';
import { inAddress, type OwnNames, ownNames } from './own-names.ts';
import { readSettings, writeSettings } from './settings.ts';

/** Builds the server behind the door; the same addresses as on the machine, with rights decided by role. */
export type BuildDoor = (tls: Tls) => Promise<FastifyInstance>;

/** Key and certificate chain, PEM. */
export interface Tls {
  readonly key: string;
  readonly cert: string;
}

export interface NetworkOptions {
  /** The station's data folder. */
  readonly data: string;
  readonly build: BuildDoor;
  readonly logger: FastifyBaseLogger;
  /** Port for TLS instead of the remembered one; 0: any. */
  readonly port?: number;
  readonly names?: () => OwnNames;
  readonly now?: () => Date;
}

interface OpenDoor {
  readonly server: FastifyInstance;
  readonly port: number;
  /** PEM. */
  certificate: string;
  /** What the certificate stands for, and until when. */
  names: readonly string[];
  until: Date;
}

/** How often names, addresses and the age of the certificate are looked at, ms. */
const lookEvery = 60_000;

/**
 * The station's door to the network: closed unless the operator opened it, and then only over TLS. The certificate follows the
 * machine's names and addresses by itself.
 */
export class Network {
  readonly #options: NetworkOptions;
  readonly #folder: string;
  #door: OpenDoor | undefined;
  #problem: ProblemError | undefined;
  #work: Promise<unknown> = Promise.resolve();
  #timer: NodeJS.Timeout | undefined;

  constructor(options: NetworkOptions) {
    this.#options = options;
    this.#folder = join(options.data, 'network');
  }

  /** Opens the door where it was left open. A failure does not stop the station; it is told in `view`. */
  async start(wanted?: boolean): Promise<void> {
    const settings = readSettings(this.#folder);
    if (wanted !== undefined && wanted !== settings.on) writeSettings(this.#folder, { ...settings, on: wanted });
    if (wanted ?? settings.on) await this.#soon(() => this.#open());
  }

  /** Opens or closes the door and remembers it. Closing ends every connection that came through it. */
  async switch(on: boolean): Promise<void> {
    writeSettings(this.#folder, { ...readSettings(this.#folder), on });
    await this.#soon(() => (on ? this.#open() : this.#close()));
  }

  async close(): Promise<void> {
    await this.#soon(() => this.#close());
  }

  /** Host names with port that the door answers to. */
  hosts(): ReadonlySet<string> {
    const { port } = this.#door ?? {};
    return new Set(this.#covered().map((name) => `${inAddress(name)}${port === 443 ? '' : `:${port}`}`));
  }

  async view(): Promise<NetworkView> {
    if (this.#door !== undefined) await this.#renew();
    const authority = await this.#describeAuthority();
    const { port, names, until } = this.#door ?? {};
    const problem = this.#problem;
    return {
      on: readSettings(this.#folder).on,
      open: this.#door !== undefined,
      ...(problem === undefined
        ? {}
        : { problem: { code: problem.code, detail: problem.message, next: problem.next } }),
      ...(port === undefined ? {} : { port }),
      addresses: port === undefined ? [] : this.#addresses(port),
      uncovered: authority?.uncovered ?? [],
      ...(authority === undefined ? {} : { authority: authority.facts }),
      ...(names === undefined || until === undefined
        ? {}
        : { certificate: { names: [...names], until: until.toISOString() } }),
    };
  }

  /** The authority's certificate as DER with its name; undefined before the network was first switched on. */
  async authorityFile(): Promise<{ readonly der: Buffer; readonly name: string } | undefined> {
    const pair = await this.#authority();
    if (pair === undefined) return undefined;
    const { derOf, factsOf } = await keys();
    return { der: derOf(pair.certificate), name: factsOf(pair.certificate).subject };
  }

  #addresses(port: number): NetworkView['addresses'] {
    const { addresses } = this.#names();
    return this.#covered()
      .filter((name) => addresses.includes(name) || name.includes('.'))
      .map((name) => ({
        url: `https://${inAddress(name)}:${port}/`,
        kind: addresses.includes(name) ? ('number' as const) : ('name' as const),
      }))
      .sort((a, b) => Number(a.kind === 'name') - Number(b.kind === 'name'));
  }

  /** Names and addresses of this moment that the certificate stands for. */
  #covered(): string[] {
    const { names, addresses } = this.#names();
    return [...names, ...addresses].filter((name) => this.#door?.names.includes(name));
  }

  async #open(): Promise<void> {
    if (this.#door !== undefined) return;
    this.#problem = undefined;
    try {
      const { tls, ...leaf } = await this.#leaf();
      const server = await this.#options.build(tls);
      const port = await listenOnNetwork(server, this.#options.port ?? readSettings(this.#folder).port);
      this.#door = { server, port, ...leaf };
      if (this.#options.port === undefined) writeSettings(this.#folder, { ...readSettings(this.#folder), port });
      this.#timer = setInterval(() => void this.#renew(), lookEvery).unref();
    } catch (error) {
      this.#options.logger.error({ err: error }, 'the network could not be opened');
      this.#problem = asProblem(error);
    }
  }

  async #close(): Promise<void> {
    clearInterval(this.#timer);
    const { server } = this.#door ?? {};
    this.#door = undefined;
    this.#problem = undefined;
    await server?.close();
  }

  /** A new certificate where the old one ages or the machine is called otherwise now; connections go on. */
  async #renew(): Promise<void> {
    await this.#soon(async () => {
      const door = this.#door;
      if (door === undefined) return;
      const { tls, ...leaf } = await this.#leaf();
      if (leaf.certificate === door.certificate) return;
      (door.server.server as unknown as { setSecureContext(tls: Tls): void }).setSecureContext(tls);
      Object.assign(door, leaf);
    }).catch((error: unknown) => this.#options.logger.error({ err: error }, 'the certificate was not renewed'));
  }

  /** The station's certificate as it should be now; made where there is none or the kept one will not do. */
  async #leaf(): Promise<{ tls: Tls; certificate: string; names: readonly string[]; until: Date }> {
    const { KeyFiles, factsOf } = await keys();
    const files = new KeyFiles(this.#folder);
    const authority = await files.ensureAuthority(this.#names(), this.#now());
    const { key, certificate } = await files.ensureLeaf(authority, this.#names(), this.#now());
    const { names, until } = factsOf(certificate);
    return { tls: { key, cert: `${certificate}\n${authority.certificate}\n` }, certificate, names, until };
  }

  async #authority(): Promise<KeyedCertificate | undefined> {
    if (!existsSync(this.#folder)) return undefined;
    const { KeyFiles } = await keys();
    return new KeyFiles(this.#folder).authority();
  }

  async #describeAuthority() {
    try {
      const pair = await this.#authority();
      if (pair === undefined) return undefined;
      const { factsOf, permits } = await keys();
      const { subject: name, fingerprint, until, permitted } = factsOf(pair.certificate);
      const { names, addresses } = this.#names();
      return {
        facts: { name, fingerprint, until: until.toISOString() },
        uncovered: [...names, ...addresses].filter((one) => !permits(permitted, one)),
      };
    } catch (error) {
      this.#problem ??= asProblem(error);
      return undefined;
    }
  }

  /** One thing after the other. */
  #soon<T>(act: () => Promise<T>): Promise<T> {
    const next = this.#work.then(act);
    this.#work = next.catch(() => {});
    return next;
  }

  #names(): OwnNames {
    return (this.#options.names ?? ownNames)();
  }

  #now(): Date {
    return (this.#options.now ?? (() => new Date()))();
  }
}

const keys = () => import('./keys.ts');

function asProblem(error: unknown): ProblemError {
  if (error instanceof ProblemError) return error;
  return new ProblemError(
    500,
    'network-not-opened',
    `The network could not be opened: ${error instanceof Error ? error.message : String(error)}.`,
    'The station itself goes on. Close what uses the port, or name another with --network-port, then switch it on again.',
  );
}
