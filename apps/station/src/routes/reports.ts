import { type LabId, reportRoutes } from '@sthene/contract';
import type { FastifyInstance } from 'fastify';
import { changeAppearance, showAppearance } from '../work/report/appearance.ts';
import { reportFile, reportParts } from '../work/report/deliver.ts';
import { keepHandedOut } from '../work/report/handed-out.ts';
import type { Station } from '../work/station.ts';
import { register, registerBytes } from './register.ts';

/**
 * A report that is looked at before it is printed: no script, nothing from elsewhere, and only inside our own pages. The sandbox gives it
 * no more than its own looks.
 */
const previewPolicy =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'self'; base-uri 'none'; sandbox allow-same-origin";

/** Addresses of reports. */
export function registerReportRoutes(server: FastifyInstance, station: Station): void {
  const lab = (params: { lab: LabId }) => station.labs.open(params.lab);
  const r = reportRoutes;

  registerBytes(server, r.report, async ({ params, query, reply }) => {
    const { bytes, mediaType, name, says } = await reportFile(await lab(params), params.kind, query);
    if (query.as === 'pdf' || query.as === 'xlsx') await keepHandedOut(await lab(params), says);
    if (query.as === 'html') reply.header('content-security-policy', previewPolicy);
    const way = query.as === 'html' ? 'inline' : 'attachment';
    return reply
      .type(mediaType)
      .header('content-disposition', `${way}; filename="${name}"`)
      .send(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength));
  });
  register(server, r.reportContent, async ({ params, query }) => reportParts(await lab(params), params.kind, query));
  register(server, r.reportAppearance, async ({ params }) => showAppearance(await lab(params)));
  register(server, r.changeReportAppearance, async ({ params, body }) => changeAppearance(await lab(params), body));
}
