import type { ProtocolRow, ProtocolUse, ProtocolVersionView, ProtocolView } from '@sthene/contract';
import {
  type BuiltInProtocol,
  builtInProtocols,
  firstVersion,
  nextVersion,
  type ProtocolDocument,
  protocolReference,
  validateProtocol,
} from '@sthene/core';
import { type StoredProtocol, type StoredProtocolVersion, StoreError } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { stationActor } from '../labs/open-lab.ts';
import { ProblemError, problems } from '../server/problem-error.ts';
import { nameOf } from './people.ts';

const shaOf = (document: ProtocolDocument): string => protocolReference(document).sha256;
const builtInBySha = (sha256: string): BuiltInProtocol | undefined =>
  builtInProtocols.all.find(({ document }) => shaOf(document) === sha256);

/** Every protocol: the built-in ones in their order, then those of the lab by name. */
export async function listProtocols({ store }: OpenLab): Promise<ProtocolRow[]> {
  const counts = await store.protocols.sessionCounts();
  const builtIn = builtInProtocols.all.map(
    ({ id, document }): ProtocolRow => ({
      id,
      ...protocolReference(document),
      test: document.test.id,
      summary: document.summary,
      builtIn: true,
      archived: false,
      versions: 1,
      sessions: counts.get(shaOf(document)) ?? 0,
    }),
  );
  const own = await Promise.all(
    (await store.protocols.list()).map(async (one): Promise<ProtocolRow[]> => {
      const versions = await store.protocols.versionsOf(one.id);
      const newest = versions.at(-1);
      if (newest === undefined) return [];
      return [
        {
          id: one.id,
          name: one.name,
          version: newest.document.version,
          sha256: newest.sha256,
          test: one.test,
          summary: newest.document.summary,
          builtIn: false,
          archived: one.archived,
          versions: versions.length,
          sessions: versions.reduce((sum, { sha256 }) => sum + (counts.get(sha256) ?? 0), 0),
          changedAt: newest.addedAt,
        },
      ];
    }),
  );
  return [...builtIn, ...own.flat()];
}

/** One protocol by the id of a lab protocol, the short id of a built-in one, or the hash of any version. */
export async function showProtocol(lab: OpenLab, id: string): Promise<ProtocolView> {
  const builtIn = builtInProtocols.get(id) ?? builtInBySha(id);
  if (builtIn !== undefined) return builtInView(lab, builtIn);
  const stored = await storedProtocol(lab, id);
  const counts = await lab.store.protocols.sessionCounts();
  const versions = await lab.store.protocols.versionsOf(stored.id);
  return {
    id: stored.id,
    name: stored.name,
    test: stored.test,
    builtIn: false,
    archived: stored.archived,
    versions: await Promise.all(versions.reverse().map((one) => versionView(lab, one, counts))),
  };
}

async function builtInView({ store }: OpenLab, { id, document }: BuiltInProtocol): Promise<ProtocolView> {
  const sha256 = shaOf(document);
  const sessions = (await store.protocols.sessionCounts()).get(sha256) ?? 0;
  const { name, test } = document;
  const version = { sha256, document: document as ProtocolVersionView['document'], sessions };
  return { id, name, test: test.id, builtIn: true, archived: false, versions: [version] };
}

async function versionView(
  lab: OpenLab,
  { sha256, document, by, addedAt }: StoredProtocolVersion,
  counts: ReadonlyMap<string, number>,
): Promise<ProtocolVersionView> {
  return {
    sha256,
    document: document as ProtocolVersionView['document'],
    sessions: counts.get(sha256) ?? 0,
    by: await lab.nameOf(by),
    addedAt,
  };
}

async function storedProtocol({ store }: OpenLab, id: string): Promise<StoredProtocol> {
  const owner = /^[\da-f]{64}$/.test(id) ? (await store.protocols.version(id))?.protocol : id;
  const stored = owner === undefined ? undefined : await store.protocols.get(owner);
  if (stored === undefined) throw problems.notFound('protocol');
  return stored;
}

/** A version by its hash, or the newest version of a protocol. */
export async function documentOf(lab: OpenLab, id: string): Promise<ProtocolDocument> {
  const builtIn = builtInProtocols.get(id) ?? builtInBySha(id);
  if (builtIn !== undefined) return builtIn.document;
  const exact = /^[\da-f]{64}$/.test(id) ? await lab.store.protocols.version(id) : undefined;
  if (exact !== undefined) return exact.document;
  const stored = await storedProtocol(lab, id);
  const newest = (await lab.store.protocols.versionsOf(stored.id)).at(-1);
  if (newest === undefined) throw problems.notFound('protocol');
  return newest.document;
}

/** Keeps a version that came with the program, so that a session may refer to it. */
export async function keepProtocol({ store }: OpenLab, document: ProtocolDocument): Promise<string> {
  const sha256 = shaOf(document);
  if ((await store.protocols.version(sha256)) === undefined) await store.protocols.keep(sha256, document, stationActor);
  return sha256;
}

/** What was sent, as a protocol, or a refusal that names every fault. */
function judged(sent: unknown): ProtocolDocument {
  const outcome = validateProtocol(sent);
  if (outcome.ok) return outcome.document;
  const said = outcome.faults.map(({ at, words }) => `${at || 'document'}: ${words}`);
  throw new ProblemError(
    422,
    'protocol-invalid',
    `This is no protocol that can be used. ${said.slice(0, 8).join(' ')}`,
    'Nothing was changed. Correct what is named and send it again.',
  );
}

/** Makes a protocol of the lab. */
export async function createProtocol(lab: OpenLab, sent: Record<string, unknown>, by: string): Promise<ProtocolView> {
  const document = firstVersion(judged({ ...sent, version: 1 }));
  refuseBuiltInName(document.name);
  return added(lab, document, by);
}

async function added(lab: OpenLab, document: ProtocolDocument, by: string): Promise<ProtocolView> {
  const actor = await lab.actor(by);
  const { id } = await orTaken(lab.store.protocols.create(shaOf(document), document, actor));
  return showProtocol(lab, id);
}

/** Adds the version after the one with the hash `after`. */
export async function succeedProtocol(
  lab: OpenLab,
  id: string,
  sent: Record<string, unknown>,
  after: string,
  by: string,
): Promise<ProtocolView> {
  if (builtInProtocols.has(id) || builtInBySha(id) !== undefined) throw builtInStays();
  const stored = await storedProtocol(lab, id);
  const before = await lab.store.protocols.version(after);
  if (before === undefined || before.protocol !== stored.id) throw problems.notFound('version of this protocol');
  const { succeeds: _, ...bare } = sent;
  const document = nextVersion(before.document, judged({ ...bare, version: before.document.version + 1 }));
  refuseBuiltInName(document.name);
  if (document.test.id !== stored.test)
    throw new ProblemError(
      422,
      'protocol-test-fixed',
      'A protocol keeps its test through all versions.',
      'Make a protocol of its own for another test.',
    );
  await orTaken(lab.store.protocols.succeed(stored.id, shaOf(document), document, await lab.actor(by)));
  return showProtocol(lab, stored.id);
}

const builtInStays = () =>
  new ProblemError(
    409,
    'protocol-built-in',
    'A protocol of this program stays as it is.',
    'Duplicate it and change the copy.',
  );

export async function archiveProtocol(lab: OpenLab, id: string, archived: boolean, by: string): Promise<ProtocolView> {
  if (builtInProtocols.has(id) || builtInBySha(id) !== undefined) throw builtInStays();
  const stored = await storedProtocol(lab, id);
  await lab.store.protocols.archive(stored.id, archived, await lab.actor(by));
  return showProtocol(lab, stored.id);
}

/** A protocol of the lab that begins where a version of another one stands. */
export async function duplicateProtocol(lab: OpenLab, id: string, name: string, by: string): Promise<ProtocolView> {
  const from = await documentOf(lab, id);
  refuseBuiltInName(name);
  const note = `From "${from.name}", version ${from.version}.`;
  return added(lab, firstVersion({ ...from, name: name.trim(), note }), by);
}

/** Takes in a file as it is. A version that follows the newest one here is added to its protocol; any other makes a new one. */
export async function importProtocol(lab: OpenLab, sent: Record<string, unknown>, by: string): Promise<ProtocolView> {
  const { $schema: _, ...file } = sent;
  const document = judged(file);
  const sha256 = shaOf(document);
  const known = builtInBySha(sha256)?.id ?? (await lab.store.protocols.version(sha256))?.protocol;
  if (known !== undefined)
    throw new ProblemError(
      409,
      'protocol-there-already',
      `This very version is here already: "${document.name}", version ${document.version}.`,
      'Nothing needs to be done.',
    );
  const before = document.succeeds && (await lab.store.protocols.version(document.succeeds.sha256));
  if (before?.protocol === undefined) {
    refuseBuiltInName(document.name);
    return added(lab, document, by);
  }
  await orTaken(lab.store.protocols.succeed(before.protocol, sha256, document, await lab.actor(by)));
  return showProtocol(lab, before.protocol);
}

function refuseBuiltInName(name: string): void {
  const taken = builtInProtocols.all.some(({ document }) => document.name.toLowerCase() === name.trim().toLowerCase());
  if (taken) throw nameTaken();
}

const nameTaken = () => new ProblemError(409, 'name-taken', 'Another protocol has this name.', 'Choose another name.');

async function orTaken<T>(writing: Promise<T>): Promise<T> {
  try {
    return await writing;
  } catch (error) {
    if (error instanceof StoreError && error.code === 'already-there') throw nameTaken();
    if (error instanceof StoreError && error.code === 'changed-meanwhile')
      throw new ProblemError(
        409,
        'protocol-changed-meanwhile',
        'Somebody has added another version meanwhile.',
        'Your draft is safe on this screen. Look at what changed, then save it as the version after that.',
      );
    throw error;
  }
}

/** A version as a file to share, with the name it is offered under. */
export async function protocolFile(lab: OpenLab, id: string): Promise<{ name: string; text: string }> {
  const document = await documentOf(lab, id);
  const plain = document.name
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .toLowerCase();
  return {
    name: `${plain || 'protocol'}-${document.version}.protocol.json`,
    text: `${JSON.stringify(document, null, 2)}\n`,
  };
}

const mostSessions = 50;

/** Which sessions each version ran, newest version first. */
export async function protocolUse(lab: OpenLab, id: string): Promise<ProtocolUse[]> {
  const view = await showProtocol(lab, id);
  return Promise.all(
    view.versions.map(async ({ sha256, document, sessions: total }) => {
      const ids = await lab.store.protocols.sessionsOf(sha256, mostSessions);
      const sessions = await Promise.all(ids.map((session) => used(lab, session)));
      return { sha256, version: document.version, total, sessions: sessions.flat() };
    }),
  );
}

async function used({ store }: OpenLab, id: string): Promise<ProtocolUse['sessions']> {
  const session = await store.sessions.get(id);
  const person = session && (await store.people.get(session.person));
  if (session === undefined || person === undefined) return [];
  return [{ id, startedAt: session.startedAt, person: { name: nameOf(person), code: person.code } }];
}
