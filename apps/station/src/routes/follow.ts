import { followRoutes as r } from '@sthene/contract';
import type { FastifyInstance } from 'fastify';
import { asymmetryView } from '../work/athlete/asymmetry.ts';
import { reliabilityByRule } from '../work/athlete/by-rule.ts';
import { curvesView } from '../work/athlete/curves.ts';
import { addNote, changeNote, listNotes, takeNoteBack } from '../work/athlete/notes.ts';
import { returnView } from '../work/athlete/return.ts';
import { batteryView } from '../work/battery/battery.ts';
import {
  blindResults,
  blindTask,
  closeBlindStudy,
  createBlindStudy,
  listBlindStudies,
  readBlind,
} from '../work/blind/blind.ts';
import { adopt } from '../work/follow/adopt.ts';
import { endAdoption, listAdoptions } from '../work/follow/adoptions.ts';
import { beforeView } from '../work/follow/before.ts';
import { normsView } from '../work/follow/norms.ts';
import { publishedPlace, publishedView } from '../work/follow/published.ts';
import { changeFollowRules, readFollowRules } from '../work/follow/rules.ts';
import { todayView } from '../work/follow/today.ts';
import type { Station } from '../work/station.ts';
import { register } from './register.ts';

/** Addresses of what follows athletes over time. */
export function registerFollowRoutes(server: FastifyInstance, station: Station): void {
  const lab = (params: { lab: 'lab' | 'example' }) => station.labs.open(params.lab);

  register(server, r.followRules, async ({ params }) => readFollowRules(await lab(params)));
  register(server, r.changeFollowRules, async ({ params, body }) => changeFollowRules(await lab(params), body));
  register(server, r.today, async ({ params, query }) => todayView(await lab(params), query));
  register(server, r.before, async ({ params, query }) => beforeView(await lab(params), query));
  register(server, r.reliabilityByRule, async ({ params, query }) => reliabilityByRule(await lab(params), query));
  register(server, r.norms, async ({ params, query }) => normsView(await lab(params), query));
  register(server, r.publishedNorms, async ({ params, query }) => publishedView(await lab(params), query));
  register(server, r.publishedPlace, async ({ params, query }) => publishedPlace(params.id, query.value, query.unit));

  register(server, r.asymmetry, async ({ params, query }) => asymmetryView(await lab(params), params.id, query));
  register(server, r.battery, async ({ params, query }) => batteryView(await lab(params), params.id, query));
  register(server, r.curves, async ({ params, query }) =>
    curvesView(await lab(params), params.id, query.sessions.split(',').filter(Boolean)),
  );
  register(server, r.returnAfterInjury, async ({ params, query }) => returnView(await lab(params), params.id, query));
  register(server, r.athleteNotes, async ({ params }) => listNotes(await lab(params), params.id));
  register(server, r.addAthleteNote, async ({ params, body }) => addNote(await lab(params), params.id, body));
  register(server, r.changeAthleteNote, async ({ params, body }) => changeNote(await lab(params), params.id, body));
  register(server, r.takeBackAthleteNote, async ({ params, body }) => takeNoteBack(await lab(params), params.id, body));

  register(server, r.adoptions, async ({ params }) => listAdoptions(await lab(params)));
  register(server, r.adopt, async ({ params, body }) => adopt(await lab(params), body));
  register(server, r.endAdoption, async ({ params, body }) => endAdoption(await lab(params), params.id, body));

  register(server, r.blindStudies, async ({ params }) => listBlindStudies(await lab(params)));
  register(server, r.createBlindStudy, async ({ params, body }) => createBlindStudy(await lab(params), body));
  register(server, r.blindTask, async ({ params, query }) => blindTask(await lab(params), params.id, query.reader));
  register(server, r.readBlind, async ({ params, body }) => readBlind(await lab(params), params.id, body));
  register(server, r.closeBlindStudy, async ({ params, body }) =>
    closeBlindStudy(await lab(params), params.id, body.by),
  );
  register(server, r.blindResults, async ({ params }) => blindResults(await lab(params), params.id));
}
