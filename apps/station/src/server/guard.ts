import type { FastifyInstance } from 'fastify';
import { problems } from './problem-error.ts';

/**
 * Only this machine, and only our own pages. A guessable port on this machine can be reached from any page the user
 * visits, and with DNS rebinding even under a name of the attacker's, so Host is checked against the station's own list and
 * Origin must be one of ours; comparing the two with each other would not do.
 */
export function guard(server: FastifyInstance, port: () => number): void {
  server.addHook('onRequest', async (request) => {
    const hosts = ownHosts(port());
    if (!hosts.has((request.headers.host ?? '').toLowerCase())) throw problems.foreignPage();
    const origin = request.headers.origin;
    if (origin !== undefined && !hosts.has(origin.replace(/^http:\/\//, '').toLowerCase()))
      throw problems.foreignPage();
    const site = request.headers['sec-fetch-site'];
    const changes = request.method !== 'GET' && request.method !== 'HEAD';
    // a browser that says the request came from elsewhere is believed; programs that send nothing are this user's own
    if (changes && site !== undefined && site !== 'same-origin' && site !== 'none') throw problems.foreignPage();
  });
}

/** The names under which this station answers. */
export function ownHosts(port: number): ReadonlySet<string> {
  return new Set(
    ['127.0.0.1', 'localhost', '[::1]'].flatMap((name) => [`${name}:${port}`, ...(port === 80 ? [name] : [])]),
  );
}
