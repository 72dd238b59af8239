import { z } from 'zod';
import { labId } from './lab.ts';
import { protocolDocument } from './protocol-document.ts';
import type { Route } from './routes.ts';

const by = z.string().min(1).max(100);
const inLab = z.object({ lab: labId });
const inLabById = z.object({ lab: labId, id: z.string() });

/** Name, version and hash: what a day and a session say of their protocol. */
export const protocolReference = z.object({ name: z.string(), version: z.number(), sha256: z.string() });

/** One line of the list. */
export const protocolRow = protocolReference.extend({
  /** Of a built-in one its short id. */
  id: z.string(),
  test: z.string(),
  summary: z.string(),
  builtIn: z.boolean(),
  archived: z.boolean(),
  versions: z.number(),
  /** Sessions run by any of its versions. */
  sessions: z.number(),
  /** When its newest version was added; absent for a built-in one. */
  changedAt: z.string().optional(),
});

/** One version with its document and who added it. */
export const protocolVersion = z.object({
  sha256: z.string(),
  document: protocolDocument,
  sessions: z.number(),
  by: z.string().optional(),
  addedAt: z.string().optional(),
});

/** A protocol with every version, newest first. */
export const protocolView = z.object({
  id: z.string(),
  name: z.string(),
  test: z.string(),
  builtIn: z.boolean(),
  archived: z.boolean(),
  versions: z.array(protocolVersion).min(1),
});

/** Which sessions used a version, newest first. */
export const protocolUse = z.object({
  sha256: z.string(),
  version: z.number(),
  total: z.number(),
  sessions: z.array(
    z.object({ id: z.string(), startedAt: z.string(), person: z.object({ name: z.string(), code: z.string() }) }),
  ),
});

/** A document as it is sent: judged by the station, which names every fault. */
const sent = z.record(z.string(), z.unknown());

const route = <P, Q, B, R>(definition: Route<P, Q, B, R>): Route<P, Q, B, R> => definition;

/** Protocols of a lab. Versions are added and never changed. */
export const protocolRoutes = {
  protocols: route({
    method: 'GET',
    path: '/api/labs/:lab/protocols',
    summary: 'Protocols, built-in ones first, then those of the lab by name',
    params: inLab,
    response: z.array(protocolRow),
  }),
  protocol: route({
    method: 'GET',
    path: '/api/labs/:lab/protocols/:id',
    summary:
      'One protocol with every version; `id` of a lab protocol, short id of a built-in one, or hash of a version',
    params: inLabById,
    response: protocolView,
  }),
  createProtocol: route({
    method: 'POST',
    path: '/api/labs/:lab/protocols',
    summary: 'Make a protocol; its version is 1 whatever the document says',
    params: inLab,
    body: z.object({ document: sent, by }),
    response: protocolView,
  }),
  succeedProtocol: route({
    method: 'POST',
    path: '/api/labs/:lab/protocols/:id/versions',
    summary: 'Add the next version; refused when somebody else has added one since `after`',
    params: inLabById,
    body: z.object({ document: sent, after: z.string(), by }),
    response: protocolView,
  }),
  archiveProtocol: route({
    method: 'POST',
    path: '/api/labs/:lab/protocols/:id/archive',
    summary: 'Offer a protocol no longer, or again; what used it stays',
    params: inLabById,
    body: z.object({ archived: z.boolean(), by }),
    response: protocolView,
  }),
  duplicateProtocol: route({
    method: 'POST',
    path: '/api/labs/:lab/protocols/:id/duplicate',
    summary: 'Make a protocol of the lab from any version of another one',
    params: inLabById,
    body: z.object({ name: z.string().min(1).max(80), by }),
    response: protocolView,
  }),
  importProtocol: route({
    method: 'POST',
    path: '/api/labs/:lab/protocols/import',
    summary: 'Take in a protocol file as it is: a new protocol, or the next version of the one it follows',
    params: inLab,
    body: z.object({ document: sent, by }),
    response: protocolView,
  }),
  /** Answers with the document as a JSON file. */
  protocolFile: route({
    method: 'GET',
    path: '/api/labs/:lab/protocols/:id/file',
    summary: 'A version as a file to share; the newest one of a protocol, or the version with this hash',
    params: inLabById,
  }),
  protocolUse: route({
    method: 'GET',
    path: '/api/labs/:lab/protocols/:id/use',
    summary: 'Sessions by the version that ran them',
    params: inLabById,
    response: z.array(protocolUse),
  }),
};

export type ProtocolReferenceView = z.infer<typeof protocolReference>;
export type ProtocolRow = z.infer<typeof protocolRow>;
export type ProtocolVersionView = z.infer<typeof protocolVersion>;
export type ProtocolView = z.infer<typeof protocolView>;
export type ProtocolUse = z.infer<typeof protocolUse>;
