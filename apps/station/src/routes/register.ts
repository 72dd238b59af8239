import type { Route } from '@sthene/contract';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { actingFor, type Caller, callerOf } from '../access/caller.ts';

/** What a handler receives, already validated by the route's schemas. */
export interface Received<P, Q, B> {
  readonly params: P;
  readonly query: Q;
  readonly body: B;
  readonly reply: FastifyReply;
  readonly request: FastifyRequest;
  /** Who asks; that they may was decided before. */
  readonly caller: Caller;
}

/** Registers one route of the contract with its handler; the schemas come from the route alone. */
export function register<P, Q, B, R>(
  server: FastifyInstance,
  route: Route<P, Q, B, R>,
  handler: (received: Received<P, Q, B>) => Promise<R>,
): void {
  server.route({
    method: route.method,
    url: route.path,
    schema: {
      summary: route.summary,
      ...(route.params ? { params: route.params } : {}),
      ...(route.query ? { querystring: route.query } : {}),
      ...(route.body ? { body: route.body } : {}),
      ...(route.response ? { response: { 200: route.response } } : {}),
    },
    handler: async (request, reply) => {
      const caller = callerOf(request);
      const { params, query, body } = request as { params: P; query: Q; body: B };
      return actingFor(caller, () => handler({ params, query, body, reply, request, caller }));
    },
  });
}

/** Registers a route whose answer is not JSON; the handler sends it. */
export function registerBytes<P, Q, B>(
  server: FastifyInstance,
  route: Route<P, Q, B, unknown>,
  handler: (received: Received<P, Q, B>) => Promise<FastifyReply>,
): void {
  register(server, route as Route<P, Q, B, unknown>, handler as (received: Received<P, Q, B>) => Promise<unknown>);
}
