import { curveMediaType, type LabId, routes } from '@sthene/contract';
import type { FastifyInstance } from 'fastify';
import { includes } from '../access/rights.ts';
import type { OpenLab } from '../labs/open-lab.ts';
import { athleteView } from '../work/athlete/athlete.ts';
import { reliabilityView } from '../work/athlete/reliability.ts';
import { squadTable } from '../work/athlete/squad.ts';
import { auditPage } from '../work/audit.ts';
import { curveOf } from '../work/curve.ts';
import { decide, redo, undo } from '../work/decide.ts';
import { dryRun, importUpload } from '../work/import.ts';
import { methodDocument, methodList } from '../work/methods.ts';
import { createPerson, listPeople, listSquads } from '../work/people.ts';
import { trialPressure } from '../work/pressure.ts';
import { recordingFile } from '../work/recording-file.ts';
import { sessionPackage } from '../work/session-package.ts';
import { sessionsPage, sessionView } from '../work/sessions.ts';
import type { Station } from '../work/station.ts';
import { listTemplates } from '../work/templates.ts';
import { trialView } from '../work/trial-view.ts';
import { trialUncertainty } from '../work/uncertainty/uncertainty.ts';
import { dropUpload, listUploads, received, receiveUpload } from '../work/upload.ts';
import { register, registerBytes } from './register.ts';

/** Every address of the station. A handler only fetches its lab and calls one use case. */
export function registerRoutes(server: FastifyInstance, station: Station): void {
  const lab = (params: { lab: LabId }) => station.labs.open(params.lab);
  /** A day that is open shows at once what was judged elsewhere. */
  const judged = async <T>(params: { lab: LabId }, judge: (lab: OpenLab) => Promise<T>): Promise<T> => {
    const done = await judge(await lab(params));
    station.judged(params.lab);
    return done;
  };

  register(server, routes.station, async ({ caller }) => station.info(caller.device?.lab));
  register(server, routes.createLab, async ({ params, body }) => station.createLab(params.lab, body.name));

  register(server, routes.people, async ({ params }) => listPeople(await lab(params)));
  register(server, routes.createPerson, async ({ params, body }) => createPerson((await lab(params)).store, body));
  register(server, routes.athlete, async ({ params, query }) => athleteView(await lab(params), params.id, query));
  register(server, routes.squads, async ({ params }) => listSquads(await lab(params)));
  register(server, routes.squadTable, async ({ params, query, caller }) =>
    squadTable(await lab(params), query, includes(caller.rank, 'operator')),
  );
  register(server, routes.reliability, async ({ params, query }) => reliabilityView(await lab(params), query));
  register(server, routes.sessions, async ({ params, query }) => sessionsPage(await lab(params), query));
  register(server, routes.session, async ({ params }) => sessionView(await lab(params), params.id));

  register(server, routes.trial, async ({ params }) => trialView(await lab(params), params.id));
  register(server, routes.uncertainty, async ({ params }) => trialUncertainty(await lab(params), params.id));
  registerBytes(server, routes.curve, async ({ params, reply }) =>
    reply.type(curveMediaType).send(await curveOf(await lab(params), params.id)),
  );
  register(server, routes.pressure, async ({ params }) => trialPressure(await lab(params), params.id));
  registerBytes(server, routes.recordingFile, async ({ params, reply }) => {
    const file = await recordingFile(await lab(params), params.id);
    return reply.type('application/octet-stream').header('content-disposition', file.disposition).send(file.bytes);
  });
  registerBytes(server, routes.sessionPackage, async ({ params, reply }) =>
    reply
      .type('application/zip')
      .header('content-disposition', 'attachment; filename="sthene-session.zip"')
      .send(await sessionPackage(await lab(params), params.id)),
  );
  register(server, routes.decide, async ({ params, body }) => judged(params, (open) => decide(open, params.id, body)));
  register(server, routes.undo, async ({ params, body }) => judged(params, (open) => undo(open, params.id, body.by)));
  register(server, routes.redo, async ({ params, body }) => judged(params, (open) => redo(open, params.id, body.by)));

  register(server, routes.upload, async ({ params, query, body }) =>
    receiveUpload(await lab(params), query.name, body),
  );
  register(server, routes.uploads, async ({ params }) => listUploads(await lab(params)));
  registerBytes(server, routes.uploadFile, async ({ params, reply }) => {
    const { bytes } = await received(await lab(params), params.id);
    return reply.type('application/octet-stream').header('content-disposition', 'attachment').send(Buffer.from(bytes));
  });
  register(server, routes.forgetUpload, async ({ params }) => dropUpload(await lab(params), params.id));
  register(server, routes.dryRun, async ({ params, body }) => dryRun(await lab(params), body));
  register(server, routes.import, async ({ params, body }) => importUpload(await lab(params), body));
  register(server, routes.templates, async ({ params, query }) => listTemplates(await lab(params), query.signature));
  register(server, routes.methods, async ({ params }) => methodList(await lab(params)));
  register(server, routes.method, async ({ params }) => methodDocument(await lab(params), params.id));
  register(server, routes.audit, async ({ params, query }) => auditPage(await lab(params), query));
}
