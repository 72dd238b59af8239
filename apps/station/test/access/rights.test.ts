import {
  accessRoutes,
  followRoutes,
  livePath,
  liveRoutes,
  protocolRoutes,
  type Route,
  reportRoutes,
  routes,
  toStation,
  videoRoutes,
} from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { includes, messageRights, type Rank, rankOf, ranks, routeRights } from '../../src/access/rights.ts';
import { type OnNetwork, stationOnNetwork } from './on-network.ts';

const contract: readonly Route[] = [
  routes,
  liveRoutes,
  protocolRoutes,
  reportRoutes,
  accessRoutes,
  videoRoutes,
  followRoutes,
].flatMap((one) => Object.values(one) as Route[]);
const refusals = ['not-paired', 'role-not-enough'];

let station: OnNetwork;
const cookies: Partial<Record<Rank, string>> = {};
beforeAll(async () => {
  station = await stationOnNetwork();
  for (const role of ['wall', 'viewer', 'operator'] as const) cookies[role] = (await station.pair(role)).cookie;
});
afterAll(() => station.end());

describe('the table of rights', () => {
  it('has an entry for every route of the contract and for every message', () => {
    for (const { method, path } of contract) expect(rankOf(method, path), `${method} ${path}`).toBeDefined();
    expect(rankOf('GET', livePath)).toBe('wall');
    for (const { shape } of toStation.options) expect(ranks).toContain(messageRights[shape.type.value]);
  });

  it('does not decide what nobody has decided', () => {
    expect(rankOf('GET', '/api/labs/:lab/forgotten')).toBeUndefined();
    expect(rankOf('DELETE', '/api/labs/:lab/people')).toBeUndefined();
  });

  it('leaves devices, network, sources, rigs and labs to the station alone', () => {
    const changing = Object.entries(routeRights).filter(([route]) => /^(POST|PUT|DELETE) /.test(route));
    const onStation = changing.filter(([, rank]) => rank === 'station').map(([route]) => route);
    for (const word of ['devices', 'network', 'sources', 'rigs', '/api/labs/:lab$'])
      expect(
        onStation.some((route) => new RegExp(word).test(route)),
        word,
      ).toBe(true);
    expect(changing.filter(([, rank]) => rank === 'viewer')).toEqual([]);
  });
});

describe('every route of the table', () => {
  const all = Object.entries(routeRights).map(([route, needed]) => ({ route, needed }));

  it.each(all)('$route needs $needed, and less is refused', async ({ route, needed }) => {
    const [method = '', pattern = ''] = route.split(' ');
    const path = pattern.replace(':lab', 'lab').replace(':id', 'nobody');
    for (const rank of ['anyone', 'wall', 'viewer', 'operator'] as const) {
      const enough = ranks.indexOf(rank) >= ranks.indexOf(needed);
      // This one would take the device off.
      if (enough && route === 'DELETE /api/access') continue;
      const body = method === 'GET' || method === 'DELETE' ? {} : { body: {} };
      const answer = await station.over(path, { method, cookie: cookies[rank], ...body });
      if (enough) expect(refusals, `${rank} gets ${answer.status}`).not.toContain(answer.json.code);
      else {
        expect(answer.status, `${rank} ${answer.text}`).toBe(rank === 'anyone' ? 401 : 403);
        expect(answer.json).toMatchObject({
          code: rank === 'anyone' ? 'not-paired' : 'role-not-enough',
          next: expect.stringMatching(/\w/),
        });
      }
    }
  });

  it('is refused before its body is read', async () => {
    const headers = { 'content-type': 'application/octet-stream', 'content-length': '500000000', connection: 'close' };
    const answer = await station.over('/api/labs/lab/uploads?name=x', {
      method: 'POST',
      cookie: cookies.viewer,
      headers,
    });
    expect(answer.json.code).toBe('role-not-enough');
  });
});

describe('what a device is told', () => {
  it('is of its own lab only, and not where the data lie', async () => {
    const told = await station.over('/api/station', { cookie: cookies.viewer });
    expect(told.json.labs).toMatchObject([{ id: 'lab', folder: '' }]);
    expect(told.text).not.toContain(station.folder);
    const other = await station.over('/api/labs/example/people', { cookie: cookies.viewer });
    expect(other).toMatchObject({ status: 403, json: { code: 'device-other-lab' } });
  });

  it('is who it is, and nothing to a stranger', async () => {
    const known = await station.over('/api/access', { cookie: cookies.wall });
    expect(known.json).toMatchObject({ place: 'network', device: { name: 'A wall', role: 'wall', lab: 'lab' } });
    expect((await station.over('/api/access')).json).toEqual({ place: 'network' });
    expect(await station.ask(accessRoutes.access)).toEqual({ place: 'station' });
  });

  it('names every address its role may use and no other, so that its screens offer nothing in vain', async () => {
    for (const role of ['wall', 'viewer', 'operator'] as const) {
      const { may } = (await station.over('/api/access', { cookie: cookies[role] })).json as { may: string[] };
      const allowed = Object.keys(routeRights).filter((one) => includes(role, routeRights[one] as Rank));
      expect([...may].sort(), role).toEqual(allowed.sort());
    }
    const wall = (await station.over('/api/access', { cookie: cookies.wall })).json as { may: string[] };
    expect(wall.may).not.toContain('GET /api/labs/:lab/people');
  });
});
