import { type LabId, methodRoutes } from '@sthene/contract';
import type { FastifyInstance } from 'fastify';
import { nearestMethod } from '../work/method/nearest.ts';
import { previewMethod } from '../work/method/preview.ts';
import { makeSuccessor } from '../work/method/succeed.ts';
import { comparedPairs, comparisonOf } from '../work/recompute/comparison.ts';
import { failuresOfRun, flipsOfRun } from '../work/recompute/flips.ts';
import { handedOutOfRun } from '../work/recompute/handed-out.ts';
import { adoptRun, discardRun, pauseRun, resumeRun, startRun } from '../work/recompute/runs.ts';
import { listRuns, showRun } from '../work/recompute/view.ts';
import type { Station } from '../work/station.ts';
import { register } from './register.ts';

/** Addresses for making methods, trying them, and judging the archive again. */
export function registerMethodRoutes(server: FastifyInstance, station: Station): void {
  const lab = (params: { lab: LabId }) => station.labs.open(params.lab);
  const work = (params: { lab: LabId }) => station.recomputing(params.lab);
  /** The run after something was done to it. */
  const after = async (params: { lab: LabId; id: string }) => showRun(await lab(params), await work(params), params.id);
  const r = methodRoutes;

  register(server, r.succeedMethod, async ({ params, body }) => makeSuccessor(await lab(params), body));
  register(server, r.previewMethod, async ({ params, body }) => previewMethod(await lab(params), body, station.breath));
  register(server, r.nearestMethod, async ({ params, body }) => nearestMethod(await lab(params), body, station.breath));

  register(server, r.recomputations, async ({ params }) => listRuns(await lab(params), await work(params)));
  register(server, r.recomputation, async ({ params }) => after(params));
  register(server, r.startRecomputation, async ({ params, body }) => {
    const { id } = await startRun(await lab(params), await work(params), body);
    return after({ ...params, id });
  });
  register(server, r.pauseRecomputation, async ({ params, body }) => {
    await pauseRun(await lab(params), params.id, body.by);
    return after(params);
  });
  register(server, r.resumeRecomputation, async ({ params, body }) => {
    await resumeRun(await lab(params), await work(params), params.id, body.by);
    return after(params);
  });
  register(server, r.adoptRecomputation, async ({ params, body }) => {
    const { measuring } = station;
    await adoptRun(await lab(params), await work(params), params.id, { ...body, measuring });
    station.judged(params.lab);
    return after(params);
  });
  register(server, r.discardRecomputation, async ({ params, body }) => {
    await discardRun(await lab(params), params.id, body.by, body.reason);
    return after(params);
  });
  register(server, r.recomputationFailures, async ({ params, query }) =>
    failuresOfRun(await lab(params), params.id, query.after),
  );
  register(server, r.recomputationFlips, async ({ params, query }) =>
    flipsOfRun(await lab(params), params.id, query.after),
  );
  register(server, r.recomputationReports, async ({ params }) => handedOutOfRun(await lab(params), params.id));
  register(server, r.recomputationComparison, async ({ params }) => comparisonOf(await lab(params), params.id));
  register(server, r.recomputationPairs, async ({ params, query }) =>
    comparedPairs(await lab(params), params.id, query),
  );
}
