import { z } from 'zod';
import { athleteQuery, athleteView } from './athlete.ts';
import { importOutcome, importRequest, importTemplate, receivedFile, upload } from './imports.ts';
import { lab, labId, stationInfo } from './lab.ts';
import { auditPage, methodSummary } from './methods.ts';
import { person, personDraft, squad } from './people.ts';
import { trialPressure } from './pressure.ts';
import { reliabilityQuery, reliabilityView } from './reliability.ts';
import { sessionPage, sessionQuery, sessionView } from './sessions.ts';
import { squadQuery, squadTable } from './squad.ts';
import { decisionDraft, trialView } from './trials.ts';
import { trialUncertainty } from './uncertainty.ts';

/** One route: the server registers it, the client calls it, the OpenAPI page describes it; all from this object. */
export interface Route<P = unknown, Q = unknown, B = unknown, R = unknown> {
  readonly method: 'GET' | 'POST' | 'PUT' | 'DELETE';
  /** With `:name` placeholders. */
  readonly path: string;
  readonly summary: string;
  readonly params?: z.ZodType<P>;
  readonly query?: z.ZodType<Q>;
  readonly body?: z.ZodType<B>;
  /** Absent where the answer is not JSON (a curve, a file). */
  readonly response?: z.ZodType<R>;
}

const route = <P, Q, B, R>(definition: Route<P, Q, B, R>): Route<P, Q, B, R> => definition;

const inLab = z.object({ lab: labId });
const inLabById = z.object({ lab: labId, id: z.string() });

export const routes = {
  station: route({
    method: 'GET',
    path: '/api/station',
    summary: 'What this station is and which labs it keeps',
    response: stationInfo,
  }),
  createLab: route({
    method: 'POST',
    path: '/api/labs/:lab',
    summary: 'Set up the lab, or build the Fernwater example',
    params: inLab,
    body: z.object({ name: z.string().min(1).max(100).optional() }),
    response: lab,
  }),
  people: route({
    method: 'GET',
    path: '/api/labs/:lab/people',
    summary: 'Athletes',
    params: inLab,
    response: z.array(person),
  }),
  createPerson: route({
    method: 'POST',
    path: '/api/labs/:lab/people',
    summary: 'Add an athlete',
    params: inLab,
    body: personDraft,
    response: person,
  }),
  athlete: route({
    method: 'GET',
    path: '/api/labs/:lab/people/:id/history',
    summary: 'One metric of an athlete over time, the noise of the test and what may be said of the change',
    params: inLabById,
    query: athleteQuery,
    response: athleteView,
  }),
  squads: route({
    method: 'GET',
    path: '/api/labs/:lab/squads',
    summary: 'Squads',
    params: inLab,
    response: z.array(squad),
  }),
  squadTable: route({
    method: 'GET',
    path: '/api/labs/:lab/standing',
    summary: 'Where everybody of a squad stands in one metric, and who changed',
    params: inLab,
    query: squadQuery,
    response: squadTable,
  }),
  reliability: route({
    method: 'GET',
    path: '/api/labs/:lab/reliability',
    summary: 'How good a test is: correlations, errors, detectable and worthwhile change, learning',
    params: inLab,
    query: reliabilityQuery,
    response: reliabilityView,
  }),
  sessions: route({
    method: 'GET',
    path: '/api/labs/:lab/sessions',
    summary: 'Sessions, newest first',
    params: inLab,
    query: sessionQuery,
    response: sessionPage,
  }),
  session: route({
    method: 'GET',
    path: '/api/labs/:lab/sessions/:id',
    summary: 'One session with its trials',
    params: inLabById,
    response: sessionView,
  }),
  trial: route({
    method: 'GET',
    path: '/api/labs/:lab/trials/:id',
    summary: 'One trial with its result and decisions',
    params: inLabById,
    response: trialView,
  }),
  uncertainty: route({
    method: 'GET',
    path: '/api/labs/:lab/trials/:id/uncertainty',
    summary: 'How sure each value of a trial is, part by part',
    params: inLabById,
    response: trialUncertainty,
  }),
  /** Answers with `curveMediaType`; see curve.ts. */
  curve: route({
    method: 'GET',
    path: '/api/labs/:lab/trials/:id/curve',
    summary: 'The exact forces of a trial, binary',
    params: inLabById,
  }),
  pressure: route({
    method: 'GET',
    path: '/api/labs/:lab/trials/:id/pressure',
    summary: 'Where the force of a trial acts on the plates, standing still and in the effort',
    params: inLabById,
    response: trialPressure,
  }),
  /** The file as it was received, byte for byte. */
  recordingFile: route({
    method: 'GET',
    path: '/api/labs/:lab/recordings/:id/file',
    summary: 'The recording as received',
    params: inLabById,
  }),
  /** A ZIP file. */
  sessionPackage: route({
    method: 'GET',
    path: '/api/labs/:lab/sessions/:id/package',
    summary: 'Curves and results of a session as a Data Package',
    params: inLabById,
  }),
  decide: route({
    method: 'POST',
    path: '/api/labs/:lab/trials/:id/decisions',
    summary: 'Place an onset, exclude, restore, overrule, note',
    params: inLabById,
    body: decisionDraft,
    response: trialView,
  }),
  undo: route({
    method: 'POST',
    path: '/api/labs/:lab/trials/:id/undo',
    summary: 'Take the last decision back',
    params: inLabById,
    body: z.object({ by: z.string() }),
    response: trialView,
  }),
  redo: route({
    method: 'POST',
    path: '/api/labs/:lab/trials/:id/redo',
    summary: 'Do the decision again that was taken back',
    params: inLabById,
    body: z.object({ by: z.string() }),
    response: trialView,
  }),
  /** Body: the raw bytes, `application/octet-stream`; the file's name in the query. */
  upload: route({
    method: 'POST',
    path: '/api/labs/:lab/uploads',
    summary: 'Send a file; it is stored and recognised before anything is decided',
    params: inLab,
    query: z.object({ name: z.string().max(255) }),
    response: upload,
  }),
  uploads: route({
    method: 'GET',
    path: '/api/labs/:lab/uploads',
    summary: 'Files that were sent but not imported yet, newest first',
    params: inLab,
    response: z.array(receivedFile),
  }),
  /** The file as it was sent, byte for byte, so that an unfinished import can go on after a reload. */
  uploadFile: route({
    method: 'GET',
    path: '/api/labs/:lab/uploads/:id/file',
    summary: 'A file that was sent, as received',
    params: inLabById,
  }),
  forgetUpload: route({
    method: 'DELETE',
    path: '/api/labs/:lab/uploads/:id',
    summary: 'Forget a file that was sent but not imported; recordings are never touched',
    params: inLabById,
    response: z.object({ forgotten: z.boolean() }),
  }),
  dryRun: route({
    method: 'POST',
    path: '/api/labs/:lab/imports/dry-run',
    summary: 'What an import would do, changing nothing',
    params: inLab,
    body: importRequest,
    response: importOutcome,
  }),
  import: route({
    method: 'POST',
    path: '/api/labs/:lab/imports',
    summary: 'Import an uploaded file',
    params: inLab,
    body: importRequest,
    response: importOutcome,
  }),
  templates: route({
    method: 'GET',
    path: '/api/labs/:lab/import-templates',
    summary: 'Remembered mappings',
    params: inLab,
    query: z.object({ signature: z.string().optional() }),
    response: z.array(importTemplate),
  }),
  methods: route({
    method: 'GET',
    path: '/api/labs/:lab/methods',
    summary: 'Methods this lab knows',
    params: inLab,
    response: z.array(methodSummary),
  }),
  method: route({
    method: 'GET',
    path: '/api/labs/:lab/methods/:id',
    summary: 'A method document by its SHA-256',
    params: inLabById,
    response: z.record(z.string(), z.unknown()),
  }),
  audit: route({
    method: 'GET',
    path: '/api/labs/:lab/audit',
    summary: 'The audit trail, verified',
    params: inLab,
    query: z.object({
      offset: z.coerce.number().int().min(0).default(0),
      limit: z.coerce.number().int().min(1).max(500).default(100),
    }),
    response: auditPage,
  }),
};
