import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { accessSync, chownSync, constants, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import pg from 'pg';

/** A PostgreSQL server for tests, or the reason why there is none. */
export type PostgresAvailability =
  | { readonly available: true; readonly start: () => Promise<PostgresServer> }
  | { readonly available: false; readonly reason: string };

export interface PostgresServer {
  /** Of the database from which others are made. */
  readonly connection: string;
  /** Makes an empty database and gives its connection string. */
  readonly createDatabase: () => Promise<string>;
  /** Ends the server and removes its folder; a given server is left as it is, without our databases. */
  readonly stop: () => Promise<void>;
}

const advice =
  'install PostgreSQL 15 or later (Debian: apt-get install postgresql), or set STHENE_TEST_POSTGRES to the connection ' +
  'string of a server on which databases may be created';

/**
 * Looks for a server given by STHENE_TEST_POSTGRES, else for PostgreSQL's programs on this machine. Nothing is started yet.
 */
export function findPostgres(): PostgresAvailability {
  const given = process.env.STHENE_TEST_POSTGRES;
  if (given !== undefined && given !== '') {
    return { available: true, start: async () => serverAt(given, async () => {}) };
  }
  const bin = findPrograms();
  if (bin === undefined) return { available: false, reason: `PostgreSQL was not found: ${advice}` };
  const owner = process.getuid?.() === 0 ? findOwner() : {};
  if (owner === undefined) {
    return { available: false, reason: `PostgreSQL refuses to run as root and there is no user "postgres": ${advice}` };
  }
  return { available: true, start: () => startCluster(bin, owner) };
}

type Owner = { readonly uid?: number; readonly gid?: number };

/** Folder that holds initdb and postgres: on the PATH, or where Debian puts each version (newest first). */
function findPrograms(): string | undefined {
  const debian = '/usr/lib/postgresql';
  let versions: string[] = [];
  try {
    versions = readdirSync(debian).sort((a, b) => Number(b) - Number(a));
  } catch {
    // Not a Debian; the PATH decides.
  }
  const folders = [
    ...(process.env.PATH ?? '').split(delimiter),
    ...versions.map((version) => join(debian, version, 'bin')),
  ];
  return folders.find((folder) => folder !== '' && ['initdb', 'postgres'].every((name) => runs(join(folder, name))));
}

function runs(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function findOwner(): Owner | undefined {
  try {
    const number = (flag: string) => Number(execFileSync('id', [flag, 'postgres'], { stdio: 'pipe' }).toString());
    return { uid: number('-u'), gid: number('-g') };
  } catch {
    return undefined;
  }
}

/** Starts a private cluster that listens on a socket in its own folder only, so no port can be taken. */
async function startCluster(bin: string, owner: Owner): Promise<PostgresServer> {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-pg-'));
  if (owner.uid !== undefined && owner.gid !== undefined) chownSync(folder, owner.uid, owner.gid);
  const data = join(folder, 'data');
  const options = { ...owner, cwd: folder, stdio: 'pipe' } as const;
  // A locale with its own order, so that a column which forgot its byte order shows up.
  const locale = ['-E', 'UTF8', '--locale-provider=icu', '--icu-locale=en', '--locale=C.UTF-8'];
  execFileSync(join(bin, 'initdb'), ['-D', data, '-A', 'trust', '-U', 'postgres', '--no-sync', ...locale], options);
  // -F: no sync. The tests of lost power are about our own files, and a test cluster need not survive one.
  const server = spawn(join(bin, 'postgres'), ['-D', data, '-k', folder, '-c', 'listen_addresses=', '-F'], {
    ...options,
    stdio: 'ignore',
  });
  const end = () => server.kill('SIGQUIT');
  process.once('exit', end);
  const connection = `postgres://postgres@/postgres?host=${encodeURIComponent(folder)}`;
  try {
    await untilReady(connection, server);
  } catch (error) {
    end();
    throw error;
  }
  return serverAt(connection, async () => {
    process.off('exit', end);
    const ended = new Promise((resolve) => server.once('exit', resolve));
    server.kill('SIGINT');
    await ended;
    rmSync(folder, { recursive: true, force: true });
  });
}

async function untilReady(connection: string, server: ChildProcess): Promise<void> {
  for (let attempt = 0; attempt < 300; attempt += 1) {
    if (server.exitCode !== null) throw new Error(`PostgreSQL ended at its start with code ${server.exitCode}.`);
    const client = new pg.Client(connection);
    try {
      await client.connect();
      await client.end();
      return;
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }
  throw new Error('PostgreSQL did not answer within 15 s.');
}

async function serverAt(connection: string, stop: () => Promise<void>): Promise<PostgresServer> {
  const made: string[] = [];
  const run = async (text: string) => {
    const client = new pg.Client(connection);
    await client.connect();
    try {
      await client.query(text);
    } finally {
      await client.end();
    }
  };
  return {
    connection,
    async createDatabase() {
      const name = `sthene_test_${process.pid}_${Date.now()}_${made.length}`;
      await run(`create database ${name}`);
      made.push(name);
      const url = new URL(connection.replace('@/', '@placeholder/'));
      url.pathname = `/${name}`;
      return url.toString().replace('@placeholder/', '@/');
    },
    async stop() {
      for (const name of made) await run(`drop database if exists ${name} with (force)`);
      await stop();
    },
  };
}
