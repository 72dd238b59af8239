import { type LabId, rigCheckRoutes } from '@sthene/contract';
import type { CheckStep } from '@sthene/core';
import type { FastifyInstance } from 'fastify';
import type { LiveLab } from '../live/live-lab.ts';
import { listChecks } from '../live/rig-check/check-views.ts';
import { applyCorrection, correctionEffect } from '../live/rig-check/correction-effect.ts';
import { correctRig } from '../live/rig-check/corrections.ts';
import { alone } from '../live/rig-check/draft-file.ts';
import {
  beginCheck,
  dropCheck,
  finishCheck,
  lookFurther,
  readStep,
  showPlates,
  undoReading,
} from '../live/rig-check/draft-work.ts';
import { changeCheckSettings, showCheckSettings } from '../live/rig-check/settings.ts';
import { actOnVirtual, putMasses } from '../live/rig-check/virtual-acts.ts';
import type { Station } from '../work/station.ts';
import { register } from './register.ts';

/** Addresses of checks of rigs with known masses. */
export function registerRigCheckRoutes(server: FastifyInstance, station: Station): void {
  const live = (params: { lab: LabId }) => station.live(params.lab);
  const lab = async (params: { lab: LabId }) => (await live(params)).lab;
  const r = rigCheckRoutes;
  /** What changes the check under way waits for what changes it already. */
  const inTurn = async <T>(params: { lab: LabId; id: string }, act: (at: LiveLab) => Promise<T>): Promise<T> => {
    const at = await live(params);
    return alone(at.lab, params.id, () => act(at));
  };

  register(server, r.rigCheckSettings, async ({ params }) => showCheckSettings(await lab(params)));
  register(server, r.changeRigCheckSettings, async ({ params, body }) => changeCheckSettings(await lab(params), body));
  register(server, r.rigChecks, async ({ params }) => listChecks(await live(params), params.id));
  register(server, r.beginRigCheck, ({ params, body }) => inTurn(params, (at) => beginCheck(at, params.id, body)));
  register(server, r.platesNow, async ({ params }) => showPlates(await live(params), params.id));
  register(server, r.readRigCheck, ({ params, body }) =>
    inTurn(params, (at) => readStep(at, params.id, { ...body, step: body.step as CheckStep })),
  );
  register(server, r.undoRigCheck, ({ params }) => inTurn(params, (at) => undoReading(at, params.id)));
  register(server, r.extraRigCheck, ({ params, body }) => inTurn(params, (at) => lookFurther(at, params.id, body)));
  register(server, r.finishRigCheck, ({ params, body }) => inTurn(params, (at) => finishCheck(at, params.id, body)));
  register(server, r.dropRigCheck, ({ params }) => inTurn(params, (at) => dropCheck(at, params.id)));
  register(server, r.putMasses, async ({ params, body }) => putMasses(await live(params), params.id, body));
  register(server, r.actOnVirtual, async ({ params, body }) => actOnVirtual(await live(params), params.id, body));
  register(server, r.correctRig, async ({ params, body }) => correctRig(await live(params), params.id, body));
  register(server, r.correctionEffect, async ({ params, query }) =>
    correctionEffect(await live(params), params.id, query, station.breath),
  );
  register(server, r.applyCorrection, async ({ params, body }) =>
    applyCorrection(await live(params), params.id, body, station.breath),
  );
}
