import { request as httpRequest } from 'node:http';
import { routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleData } from '../../../tests/example-lab.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

let station: StationUnderTest;
beforeAll(async () => {
  station = await stationUnderTest();
});
afterAll(() => station.end());

/** A request with headers that fetch would not let us forge. */
function raw(
  method: string,
  path: string,
  headers: Record<string, string>,
): Promise<{ status: number; headers: Record<string, unknown>; text: string }> {
  const url = new URL(path, station.address);
  return new Promise((done, failed) => {
    const request = httpRequest(
      { host: '127.0.0.1', port: url.port, path: url.pathname, method, headers },
      (response) => {
        let text = '';
        response.on('data', (piece: Buffer) => (text += piece.toString()));
        response.on('end', () => done({ status: response.statusCode ?? 0, headers: response.headers, text }));
      },
    );
    request.on('error', failed);
    request.end(method === 'GET' ? undefined : '{}');
  });
}

const json = { 'content-type': 'application/json' };

describe('the station answers on this machine only', () => {
  const port = () => new URL(station.address).port;

  it('listens on the loopback address', () => {
    expect(station.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
  });

  it.each(['evil.example', 'localhost.evil.example', '127.0.0.1.evil.example', 'localhost:1'])(
    'refuses to be called %j',
    async (host) => {
      const answer = await raw('GET', '/api/station', { host });
      expect(answer.status).toBe(403);
      expect(JSON.parse(answer.text)).toMatchObject({ code: 'foreign-origin' });
    },
  );

  it.each(['http://evil.example', 'null', 'https://127.0.0.1.evil.example', 'http://localhost:1'])(
    'refuses a page of %s, whatever it asks',
    async (origin) => {
      const host = `127.0.0.1:${port()}`;
      expect((await raw('GET', '/api/station', { host, origin })).status).toBe(403);
      expect((await raw('POST', '/api/labs/lab', { host, origin, ...json })).status).toBe(403);
    },
  );

  it('refuses a change that a browser says came from another site', async () => {
    const host = `127.0.0.1:${port()}`;
    const answer = await raw('POST', '/api/labs/lab', { host, 'sec-fetch-site': 'cross-site', ...json });
    expect(answer.status).toBe(403);
    expect((await station.ask(routes.station)).labs.every((one) => !one.exists)).toBe(true);
  });

  it('answers its own pages', async () => {
    const host = `localhost:${port()}`;
    expect((await raw('GET', '/api/station', { host, origin: `http://${host}` })).status).toBe(200);
  });

  it('sends a policy that runs nothing of others, and keeps answers out of caches', async () => {
    const { headers } = await raw('GET', '/api/station', { host: `127.0.0.1:${port()}` });
    expect(headers['content-security-policy']).toContain("default-src 'self'");
    expect(headers['content-security-policy']).not.toContain('unsafe');
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['cache-control']).toBe('no-store');
  });
});

describe('refusals are problem details', () => {
  it('of an address that is not there', async () => {
    const answer = await fetch(`${station.address}api/nothing`);
    expect(answer.headers.get('content-type')).toMatch('application/problem+json');
    expect(await answer.json()).toMatchObject({ status: 404, code: 'not-found', next: expect.stringMatching(/\w/) });
  });

  it('of a body that does not fit, naming the field', async () => {
    const body = JSON.stringify({ name: 7 });
    const answer = await fetch(`${station.address}api/labs/lab`, { method: 'POST', headers: json, body });
    expect(answer.status).toBe(400);
    expect(await answer.json()).toMatchObject({ code: 'request-invalid', detail: expect.stringContaining('name') });
  });

  it('of a lab that was never set up', async () => {
    const answer = await fetch(`${station.address}api/labs/lab/sessions`);
    expect(await answer.json()).toMatchObject({ status: 404, code: 'lab-missing' });
  });

  it.each(['../../etc/passwd', '..%2f..%2fetc%2fpasswd', '%00', 'a'.repeat(64), '0'.repeat(63)])(
    'of a recording named %s',
    async (name) => {
      await station.ask(routes.createLab, { params: { lab: 'lab' }, body: {} });
      const answer = await fetch(`${station.address}api/labs/lab/recordings/${name}/file`);
      expect(answer.status).toBe(404);
    },
  );
});

describe('the interface describes itself', () => {
  it('lists every route of the contract', async () => {
    const description = (await (await fetch(`${station.address}api/openapi.json`)).json()) as {
      openapi: string;
      paths: Record<string, unknown>;
    };
    expect(description.openapi).toMatch(/^3\./);
    for (const route of Object.values(routes))
      expect(Object.keys(description.paths)).toContain(route.path.replace(/:(\w+)/g, '{$1}'));
  });

  it('shows a page without script', async () => {
    const page = await (await fetch(`${station.address}api`)).text();
    expect(page).toContain('/api/labs/{lab}/trials/{id}');
    expect(page).not.toContain('<script');
  });
});

describe('the example', () => {
  it('is built once, is marked, and survives a restart', async () => {
    await station.end();
    const folder = await exampleData();
    station = await stationUnderTest(folder);
    const of = { params: { lab: 'example' }, body: {} } as const;
    const [one, two] = await Promise.all([0, 1].map(() => station.ask(routes.createLab, of)));
    expect(one).toEqual(two);
    expect(one).toMatchObject({ demo: true, people: 12, sessions: 203, trials: 701 });
    await station.close();
    station = await stationUnderTest(folder);
    expect((await station.ask(routes.station)).labs[1]).toMatchObject({ id: 'example', exists: true, trials: 701 });
    const again = await station.ask(routes.createLab, of);
    expect(again.sessions).toBe(203);
    const audit = await station.ask(routes.audit, { params: { lab: 'example' } });
    expect(audit.intact).toBe(true);
  }, 300_000);
});
