import type { FastifyInstance } from 'fastify';
import type { Door } from '../access/control.ts';
import { isLoopback } from '../network/listen.ts';
import { problems } from './problem-error.ts';

/**
 * Only under our own names, and only our own pages. A guessable port on this machine can be reached from any page the user
 * visits, and with DNS rebinding even under a name of the attacker's, so Host is checked against the station's own list and
 * Origin must be one of ours; comparing the two with each other would not do. The door without TLS is for this machine alone,
 * whatever it was made to listen on.
 */
export function guard(server: FastifyInstance, door: Door, ownHosts: () => ReadonlySet<string>): void {
  const scheme = door === 'machine' ? 'http://' : 'https://';
  server.addHook('onRequest', async (request) => {
    if (door === 'machine' && !isLoopback(request.socket.remoteAddress ?? '')) throw problems.foreignPage();
    const hosts = ownHosts();
    if (!hosts.has((request.headers.host ?? '').toLowerCase())) throw problems.foreignPage();
    const origin = request.headers.origin?.toLowerCase();
    if (origin !== undefined && !(origin.startsWith(scheme) && hosts.has(origin.slice(scheme.length))))
      throw problems.foreignPage();
    const site = request.headers['sec-fetch-site'];
    const changes = request.method !== 'GET' && request.method !== 'HEAD';
    // a browser that says the request came from elsewhere is believed; programs that send nothing are this user's own
    if (changes && site !== undefined && site !== 'same-origin' && site !== 'none') throw problems.foreignPage();
  });
}

/** The names under which the station answers on its own machine. */
export function machineHosts(port: number): ReadonlySet<string> {
  return new Set(
    ['127.0.0.1', 'localhost', '[::1]'].flatMap((name) => [`${name}:${port}`, ...(port === 80 ? [name] : [])]),
  );
}
