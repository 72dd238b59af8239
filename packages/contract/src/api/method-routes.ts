import { z } from 'zod';
import { labId } from './lab.ts';
import { nearestFound, nearestRequest, preview, previewRequest, sentMethod } from './method-work.ts';
import { methodSummary } from './methods.ts';
import { comparedPairs, comparison, failedTrials, flips, handedOutOfRun, recomputation } from './recompute.ts';
import type { Route } from './routes.ts';

const route = <P, Q, B, R>(definition: Route<P, Q, B, R>): Route<P, Q, B, R> => definition;

const by = z.string().min(1).max(100);
const reason = z.string().min(1).max(500);
const inLab = z.object({ lab: labId });
const inLabById = z.object({ lab: labId, id: z.string() });
const page = z.object({ after: z.string().optional() });

/** Making methods, trying them, and judging the archive again. */
export const methodRoutes = {
  succeedMethod: route({
    method: 'POST',
    path: '/api/labs/:lab/methods',
    summary: 'Make a method from another one, which stays as it is',
    params: inLab,
    body: z.object({ after: z.string(), document: sentMethod, by }),
    response: methodSummary,
  }),
  previewMethod: route({
    method: 'POST',
    path: '/api/labs/:lab/methods/preview',
    summary: 'What a method would make of some trials; nothing is stored',
    params: inLab,
    body: previewRequest,
    response: preview,
  }),
  nearestMethod: route({
    method: 'POST',
    path: '/api/labs/:lab/methods/nearest',
    summary: 'Which method gives values nearest to a table from elsewhere',
    params: inLab,
    body: nearestRequest,
    response: nearestFound,
  }),
  recomputations: route({
    method: 'GET',
    path: '/api/labs/:lab/recomputations',
    summary: 'Runs over the archive with another method, newest first',
    params: inLab,
    response: z.array(recomputation),
  }),
  startRecomputation: route({
    method: 'POST',
    path: '/api/labs/:lab/recomputations',
    summary: 'Judge the archive again with a method; nothing old is touched',
    params: inLab,
    body: z.object({ method: z.string(), by }),
    response: recomputation,
  }),
  recomputation: route({
    method: 'GET',
    path: '/api/labs/:lab/recomputations/:id',
    summary: 'How far a run is',
    params: inLabById,
    response: recomputation,
  }),
  pauseRecomputation: route({
    method: 'POST',
    path: '/api/labs/:lab/recomputations/:id/pause',
    summary: 'Pause a run; what it has done stays',
    params: inLabById,
    body: z.object({ by }),
    response: recomputation,
  }),
  resumeRecomputation: route({
    method: 'POST',
    path: '/api/labs/:lab/recomputations/:id/resume',
    summary: 'Go on with a run',
    params: inLabById,
    body: z.object({ by }),
    response: recomputation,
  }),
  adoptRecomputation: route({
    method: 'POST',
    path: '/api/labs/:lab/recomputations/:id/adopt',
    summary: "Put a run's results in force and make its method the lab's, in one act",
    params: inLabById,
    body: z.object({ by, reason }),
    response: recomputation,
  }),
  discardRecomputation: route({
    method: 'POST',
    path: '/api/labs/:lab/recomputations/:id/discard',
    summary: 'End a run without effect',
    params: inLabById,
    body: z.object({ by, reason }),
    response: recomputation,
  }),
  recomputationFailures: route({
    method: 'GET',
    path: '/api/labs/:lab/recomputations/:id/failures',
    summary: 'Trials a run could not judge, and why',
    params: inLabById,
    query: page,
    response: failedTrials,
  }),
  recomputationFlips: route({
    method: 'GET',
    path: '/api/labs/:lab/recomputations/:id/flips',
    summary: 'Verdicts a run would change, with the checks that make the difference',
    params: inLabById,
    query: page,
    response: flips,
  }),
  recomputationReports: route({
    method: 'GET',
    path: '/api/labs/:lab/recomputations/:id/reports',
    summary: 'Pages that were handed out and would read differently under a run',
    params: inLabById,
    response: handedOutOfRun,
  }),
  recomputationComparison: route({
    method: 'GET',
    path: '/api/labs/:lab/recomputations/:id/comparison',
    summary: 'Every metric before and after: limits of agreement and a line',
    params: inLabById,
    response: comparison,
  }),
  recomputationPairs: route({
    method: 'GET',
    path: '/api/labs/:lab/recomputations/:id/pairs',
    summary: 'One metric before and after, trial by trial or session by session',
    params: inLabById,
    query: z.object({ metric: z.string(), level: z.enum(['trial', 'session']).default('trial') }),
    response: comparedPairs,
  }),
};
