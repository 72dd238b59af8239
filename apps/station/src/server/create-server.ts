import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import fastifyStatic from '@fastify/static';
import swagger from '@fastify/swagger';
import Fastify, { type FastifyBaseLogger, type FastifyInstance } from 'fastify';
import { jsonSchemaTransform, serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import { controlAccess } from '../access/control.ts';
import { registerSocket } from '../live/socket.ts';
import type { Network, Tls } from '../network/network.ts';
import { registerAccessRoutes } from '../routes/access.ts';
import { registerFollowRoutes } from '../routes/follow.ts';
import { registerRoutes } from '../routes/index.ts';
import { registerLiveRoutes } from '../routes/live.ts';
import { registerMethodRoutes } from '../routes/methods.ts';
import { registerProtocolRoutes } from '../routes/protocols.ts';
import { registerReceivedRoutes } from '../routes/received.ts';
import { registerReportRoutes } from '../routes/reports.ts';
import { registerRigCheckRoutes } from '../routes/rig-check.ts';
import { registerVideoRoutes } from '../routes/video.ts';
import type { Station } from '../work/station.ts';
import { answerProblems, uploadLimit } from './errors.ts';
import { guard } from './guard.ts';
import { registerApiPage } from './openapi-page.ts';

export interface ServerOptions {
  readonly station: Station;
  readonly logger: FastifyBaseLogger;
  /** Folder of the built web app; absent: the API alone. */
  readonly webFolder?: string;
  readonly network: Network;
  /** Host names with port that the server answers to; known only after listening. */
  readonly hosts: () => ReadonlySet<string>;
  /** The door to the network is the one with TLS; there is no other way to have one. */
  readonly tls?: Tls;
}

/** A server of the station, ready to listen: for this machine, or with TLS for the network. */
export async function createServer(options: ServerOptions): Promise<FastifyInstance> {
  const { tls, station, network } = options;
  const door = tls === undefined ? 'machine' : 'network';
  const server: FastifyInstance = Fastify({
    loggerInstance: options.logger,
    bodyLimit: uploadLimit,
    // Closing the door to the network lets nobody linger in it.
    ...(tls === undefined ? {} : { https: { ...tls, minVersion: 'TLSv1.2' }, forceCloseConnections: true }),
  } as object);
  server.setValidatorCompiler(validatorCompiler);
  server.setSerializerCompiler(serializerCompiler);
  answerProblems(server);
  guard(server, door, options.hosts);
  await server.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        'default-src': ["'self'"],
        'img-src': ["'self'", 'data:', 'blob:'],
        'worker-src': ["'self'", 'blob:'],
        'object-src': ["'none'"],
        'base-uri': ["'none'"],
        'frame-ancestors': ["'none'"],
        'form-action': ["'self'"],
      },
    },
    strictTransportSecurity: false,
    referrerPolicy: { policy: 'no-referrer' },
  });
  await server.register(cookie);
  controlAccess(server, station.devices, door);
  await server.register(swagger, {
    openapi: {
      info: {
        title: 'Sthene station',
        version: station.application.version,
        description:
          'Everything the screens use: all of it on this machine, from the network what the role of a paired device allows.',
      },
    },
    transform: jsonSchemaTransform,
  });
  server.addContentTypeParser('application/octet-stream', (_request, payload, done) => done(null, payload));
  server.addHook('onSend', async (request, reply) => {
    if (request.url.startsWith('/api/')) reply.header('cache-control', 'no-store');
  });
  registerRoutes(server, station);
  registerLiveRoutes(server, station);
  registerRigCheckRoutes(server, station);
  registerReceivedRoutes(server, station);
  registerProtocolRoutes(server, station);
  registerReportRoutes(server, station);
  registerMethodRoutes(server, station);
  registerVideoRoutes(server, station);
  registerFollowRoutes(server, station);
  registerAccessRoutes(server, station, network, door);
  await registerSocket(server, station);
  registerApiPage(server);
  if (options.webFolder !== undefined && existsSync(options.webFolder))
    await serveWeb(server, resolve(options.webFolder));
  return server;
}

/** The built web app; every address that is not a file is a screen of it. */
async function serveWeb(server: FastifyInstance, folder: string): Promise<void> {
  await server.register(fastifyStatic, { root: folder, wildcard: false, index: false, preCompressed: true });
  const screen = async (_request: unknown, reply: { sendFile(name: string): unknown }) => reply.sendFile('index.html');
  for (const path of ['/', '/guide', '/pair', '/lab', '/lab/*', '/example', '/example/*'])
    server.get(path, { schema: { hide: true } }, screen as never);
}
