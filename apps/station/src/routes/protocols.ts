import { type LabId, protocolRoutes } from '@sthene/contract';
import type { FastifyInstance } from 'fastify';
import {
  archiveProtocol,
  createProtocol,
  duplicateProtocol,
  importProtocol,
  listProtocols,
  protocolFile,
  protocolUse,
  showProtocol,
  succeedProtocol,
} from '../work/protocols.ts';
import type { Station } from '../work/station.ts';
import { register, registerBytes } from './register.ts';

/** Addresses of the lab's protocols. */
export function registerProtocolRoutes(server: FastifyInstance, station: Station): void {
  const lab = (params: { lab: LabId }) => station.labs.open(params.lab);
  const r = protocolRoutes;

  register(server, r.protocols, async ({ params }) => listProtocols(await lab(params)));
  register(server, r.protocol, async ({ params }) => showProtocol(await lab(params), params.id));
  register(server, r.createProtocol, async ({ params, body }) =>
    createProtocol(await lab(params), body.document, body.by),
  );
  register(server, r.succeedProtocol, async ({ params, body }) =>
    succeedProtocol(await lab(params), params.id, body.document, body.after, body.by),
  );
  register(server, r.archiveProtocol, async ({ params, body }) =>
    archiveProtocol(await lab(params), params.id, body.archived, body.by),
  );
  register(server, r.duplicateProtocol, async ({ params, body }) =>
    duplicateProtocol(await lab(params), params.id, body.name, body.by),
  );
  register(server, r.importProtocol, async ({ params, body }) =>
    importProtocol(await lab(params), body.document, body.by),
  );
  registerBytes(server, r.protocolFile, async ({ params, reply }) => {
    const { name, text } = await protocolFile(await lab(params), params.id);
    return reply.type('application/json').header('content-disposition', `attachment; filename="${name}"`).send(text);
  });
  register(server, r.protocolUse, async ({ params }) => protocolUse(await lab(params), params.id));
}
