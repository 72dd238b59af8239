import { type LabId, liveRoutes } from '@sthene/contract';
import type { FastifyInstance } from 'fastify';
import { changeOwner } from '../live/change-owner.ts';
import {
  addEntry,
  changeDay,
  changeEntry,
  closeDay,
  createDay,
  listDays,
  openDay,
  orderDay,
  removeEntry,
  showDay,
} from '../live/day/day-work.ts';
import { addGate, listGates, releaseGate } from '../live/day/gate-work.ts';
import { changeFloorSettings } from '../live/floor-settings.ts';
import { showRigOutlet, switchRigOutlet } from '../live/outlet/outlet-work.ts';
import { practiceDay } from '../live/practice/practice-day.ts';
import { checkSource } from '../live/rig/check-source.ts';
import { listenSource, probeSource, serialPorts, stopListening } from '../live/rig/probe.ts';
import {
  changeRig,
  changeSource,
  closeRig,
  createRig,
  createSource,
  keepRecent,
  listRigs,
  listSources,
  openRig,
  showRig,
} from '../live/rig/rig-work.ts';
import { sourceHistory } from '../live/rig/source-history.ts';
import { lookForStreams } from '../live/rig/streams.ts';
import { troubleRig } from '../live/rig/trouble.ts';
import type { Station } from '../work/station.ts';
import { register } from './register.ts';

/** Addresses of rigs, sources, days and gates. */
export function registerLiveRoutes(server: FastifyInstance, station: Station): void {
  const live = (params: { lab: LabId }) => station.live(params.lab);
  const r = liveRoutes;

  register(server, r.serialPorts, async () => serialPorts());
  register(server, r.streams, async ({ params, query }) => lookForStreams(await live(params), query));
  register(server, r.sources, async ({ params }) => listSources(await live(params)));
  register(server, r.createSource, async ({ params, body }) =>
    createSource(await live(params), body.description, body.by),
  );
  register(server, r.changeSource, async ({ params, body }) =>
    changeSource(await live(params), params.id, body.description, body.by),
  );
  register(server, r.checkSource, async ({ body }) => checkSource(body.description));
  register(server, r.probeSource, async ({ params, body }) =>
    probeSource(await live(params), body.description, body.seconds),
  );
  register(server, r.listenSource, async ({ params, body }) =>
    listenSource(await live(params), params.id, body.description),
  );
  register(server, r.stopListening, async ({ params }) => stopListening(await live(params), params.id));
  register(server, r.rigs, async ({ params }) => listRigs(await live(params)));
  register(server, r.rig, async ({ params }) => showRig(await live(params), params.id));
  register(server, r.createRig, async ({ params, body }) => createRig(await live(params), body));
  register(server, r.changeRig, async ({ params, body }) => changeRig(await live(params), params.id, body));
  register(server, r.openRig, async ({ params }) => openRig(await live(params), params.id));
  register(server, r.closeRig, async ({ params }) => closeRig(await live(params), params.id));
  register(server, r.troubleRig, async ({ params, body }) => troubleRig(await live(params), params.id, body.trouble));
  register(server, r.sourceHistory, async ({ params }) => sourceHistory(await live(params), params.id));
  register(server, r.keepRecent, async ({ params, body }) => keepRecent(await live(params), params.id, body));

  register(server, r.outletSettings, async ({ params }) => (await live(params)).outlets.load());
  register(server, r.changeOutletSettings, async ({ params, body: { by, ...settings } }) =>
    (await live(params)).outlets.change(settings, by),
  );
  register(server, r.rigOutlet, async ({ params }) => showRigOutlet(await live(params), params.id));
  register(server, r.changeRigOutlet, async ({ params, body }) =>
    switchRigOutlet(await live(params), params.id, body.on, body.by),
  );

  register(server, r.days, async ({ params }) => listDays(await live(params)));
  register(server, r.createDay, async ({ params, body }) => createDay(await live(params), body));
  register(server, r.practiceDay, async ({ params, body }) => practiceDay(await live(params), body));
  register(server, r.day, async ({ params }) => showDay(await live(params), params.id));
  register(server, r.changeDay, async ({ params, body }) => changeDay(await live(params), params.id, body));
  register(server, r.openDay, async ({ params, body }) => openDay(await live(params), params.id, body.by));
  register(server, r.closeDay, async ({ params, body }) => closeDay(await live(params), params.id, body.by));
  register(server, r.orderDay, async ({ params, body }) => orderDay(await live(params), params.id, body));
  register(server, r.addEntry, async ({ params, body }) => addEntry(await live(params), params.id, body));
  register(server, r.changeEntry, async ({ params, body }) => changeEntry(await live(params), params.id, body));
  register(server, r.removeEntry, async ({ params }) => removeEntry(await live(params), params.id));
  register(server, r.floorSettings, async ({ params }) => (await live(params)).settings);
  register(server, r.changeFloorSettings, async ({ params, body }) => changeFloorSettings(await live(params), body));
  register(server, r.changeOwner, async ({ params, body }) => changeOwner(await live(params), params.id, body));

  register(server, r.gates, async ({ params }) => listGates(await live(params), params.id));
  register(server, r.addGate, async ({ params, body }) => addGate(await live(params), params.id, body));
  register(server, r.releaseGate, async ({ params, body }) => releaseGate(await live(params), params.id, body));
}
