import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import helmet from '@fastify/helmet';
import fastifyStatic from '@fastify/static';
import swagger from '@fastify/swagger';
import Fastify, { type FastifyBaseLogger, type FastifyInstance } from 'fastify';
import { jsonSchemaTransform, serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import { registerSocket } from '../live/socket.ts';
import { registerRoutes } from '../routes/index.ts';
import { registerLiveRoutes } from '../routes/live.ts';
import { registerProtocolRoutes } from '../routes/protocols.ts';
import type { Station } from '../work/station.ts';
import { answerProblems, uploadLimit } from './errors.ts';
import { guard } from './guard.ts';
import { registerApiPage } from './openapi-page.ts';

export interface ServerOptions {
  readonly station: Station;
  readonly logger: FastifyBaseLogger;
  /** Folder of the built web app; absent: the API alone. */
  readonly webFolder?: string;
  /** The port in use, known only after listening. */
  readonly port: () => number;
}

/** The station's HTTP server, ready to listen. */
export async function createServer(options: ServerOptions): Promise<FastifyInstance> {
  const server: FastifyInstance = Fastify({
    loggerInstance: options.logger,
    bodyLimit: uploadLimit,
  });
  server.setValidatorCompiler(validatorCompiler);
  server.setSerializerCompiler(serializerCompiler);
  answerProblems(server);
  guard(server, options.port);
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
  await server.register(swagger, {
    openapi: {
      info: {
        title: 'Sthene station',
        version: options.station.application.version,
        description: 'Everything the screens use. This machine only.',
      },
    },
    transform: jsonSchemaTransform,
  });
  server.addContentTypeParser('application/octet-stream', (_request, payload, done) => done(null, payload));
  server.addHook('onSend', async (request, reply) => {
    if (request.url.startsWith('/api/')) reply.header('cache-control', 'no-store');
  });
  registerRoutes(server, options.station);
  registerLiveRoutes(server, options.station);
  registerProtocolRoutes(server, options.station);
  await registerSocket(server, options.station);
  registerApiPage(server);
  if (options.webFolder !== undefined && existsSync(options.webFolder))
    await serveWeb(server, resolve(options.webFolder));
  return server;
}

/** The built web app; every address that is not a file is a screen of it. */
async function serveWeb(server: FastifyInstance, folder: string): Promise<void> {
  await server.register(fastifyStatic, { root: folder, wildcard: false, index: false, preCompressed: true });
  const screen = async (_request: unknown, reply: { sendFile(name: string): unknown }) => reply.sendFile('index.html');
  for (const path of ['/', '/guide', '/lab', '/lab/*', '/example', '/example/*'])
    server.get(path, { schema: { hide: true } }, screen as never);
}
