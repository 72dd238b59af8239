import { Readable } from 'node:stream';
import { receivedRoutes as routes } from '@sthene/contract';
import type { FastifyInstance } from 'fastify';
import { exchangeLines } from '../work/received/exchange.ts';
import { dryRunResults, importResults } from '../work/received/import-results.ts';
import { listReceived, receivedFileOf, takeBackReceived } from '../work/received/list.ts';
import { previewTable } from '../work/received/preview.ts';
import type { Station } from '../work/station.ts';
import { register, registerBytes } from './register.ts';

/** Results of others without curves, and the exchange of results. */
export function registerReceivedRoutes(server: FastifyInstance, station: Station): void {
  const lab = (params: { lab: 'lab' | 'example' }) => station.labs.open(params.lab);

  register(server, routes.table, async ({ params, body }) => previewTable(await lab(params), body));
  register(server, routes.dryRun, async ({ params, body }) => dryRunResults(await lab(params), body));
  register(server, routes.import, async ({ params, body }) => importResults(await lab(params), body));
  register(server, routes.list, async ({ params }) => listReceived(await lab(params)));
  register(server, routes.takeBack, async ({ params, body }) => takeBackReceived(await lab(params), params.id, body));
  registerBytes(server, routes.file, async ({ params, reply }) => {
    const file = await receivedFileOf(await lab(params), params.id);
    return reply.type('application/octet-stream').header('content-disposition', file.disposition).send(file.bytes);
  });
  registerBytes(server, routes.exchange, async ({ params, query, reply }) => {
    const lines = exchangeLines(await lab(params), { names: query.names === 'true' });
    return reply
      .type('text/csv; charset=utf-8; header=present')
      .header('content-disposition', 'attachment; filename="sthene-exchange.csv"')
      .send(Readable.from(lines));
  });
}
