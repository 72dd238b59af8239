import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { callerOf, setCaller, somebody, theStation } from './caller.ts';
import type { Devices } from './devices.ts';
import { accessRefusals } from './refusals.ts';
import { includes, rankOf } from './rights.ts';

/** Name of the cookie; `__Host-` makes browsers refuse it without TLS, from a subdomain, or for part of the site. */
export const cookieName = '__Host-sthene-device';
/** Browsers keep a cookie for at most 400 days; each visit of the pairing page or a reload begins them anew. */
const cookieSeconds = 400 * 86_400;

/** Which listener a request came in by. */
export type Door = 'machine' | 'network';

/**
 * Decides for every request whether it may be done, before its body is read. On the machine itself everything may; from the
 * network only what the rank of the paired device includes, and only in its own lab.
 */
export function controlAccess(server: FastifyInstance, devices: Devices, door: Door): void {
  server.addHook('onRoute', ({ method, url }) => {
    for (const one of [method].flat())
      if (rankOf(one, url) === undefined)
        throw new Error(`Nobody decided who may use ${one} ${url}. Give it a rank in access/rights.ts.`);
  });
  server.addHook('onRequest', async (request) => {
    if (door === 'machine') return setCaller(request, theStation);
    const path = request.routeOptions.url;
    // Nothing stands behind this address, or only a file of the web app: no need to know who asks.
    const needed = path === undefined ? 'anyone' : (rankOf(request.method, path) ?? 'station');
    const found = await devices.recognise(request.cookies[cookieName]);
    const caller = typeof found === 'string' ? { ...somebody, revoked: found === 'revoked' } : found;
    setCaller(request, caller);
    if (includes(caller.rank, needed)) return judgeLab(request);
    if (found === 'revoked') throw accessRefusals.revoked();
    if (found === 'unknown') throw accessRefusals.notPaired();
    request.log.warn({ device: caller.device?.id, method: request.method, route: path }, 'refused by role');
    throw accessRefusals.rank(caller.rank, needed);
  });
}

function judgeLab(request: FastifyRequest): void {
  const { device } = callerOf(request);
  const lab = (request.params as { lab?: string } | undefined)?.lab;
  if (device !== undefined && lab !== undefined && lab !== device.lab) throw accessRefusals.otherLab();
}

/** Hands a device its token, out of reach of any script and of any other site. */
export function giveToken(reply: FastifyReply, token: string): void {
  reply.setCookie(cookieName, token, { ...cookieRules, maxAge: cookieSeconds });
}

export function takeToken(reply: FastifyReply): void {
  reply.clearCookie(cookieName, cookieRules);
}

const cookieRules = { path: '/', httpOnly: true, secure: true, sameSite: 'strict' } as const;
