import { z } from 'zod';
import { labId } from '../lab.ts';
import type { Route } from '../routes.ts';
import { squadQuery } from '../squad.ts';
import { adoption, adoptionDraft, adoptionEnd } from './adoption.ts';
import { asymmetryView } from './asymmetry.ts';
import { batteryQuery, batteryView } from './battery.ts';
import { beforeView } from './before.ts';
import { blindReadingDraft, blindResults, blindStudy, blindStudyDraft, blindTask } from './blind.ts';
import { reliabilityByRule } from './by-rule.ts';
import { curvesQuery, curvesView } from './curves.ts';
import { normsView } from './norms.ts';
import { athleteNote, athleteNoteChange, athleteNoteDraft, athleteNoteTakenBack } from './notes.ts';
import { placeQuery, publishedPlace, publishedView } from './published.ts';
import { returnQuery, returnView } from './return.ts';
import { followRules, followRulesDraft } from './rules.ts';
import { todayQuery, todayView } from './today.ts';

const route = <P, Q, B, R>(definition: Route<P, Q, B, R>): Route<P, Q, B, R> => definition;

const inLab = z.object({ lab: labId });
const inLabById = z.object({ lab: labId, id: z.string() });
const by = z.object({ by: z.string().min(1).max(100) });

/** Routes that follow athletes over time: what to act on, notes, asymmetry, return after an injury, norms, double readings. */
export const followRoutes = {
  followRules: route({
    method: 'GET',
    path: '/api/labs/:lab/follow-rules',
    summary: 'When seasons begin, who is due, and by which value a squad is judged',
    params: inLab,
    response: followRules,
  }),
  changeFollowRules: route({
    method: 'PUT',
    path: '/api/labs/:lab/follow-rules',
    summary: 'Change when seasons begin, who is due, and by which value a squad is judged',
    params: inLab,
    body: followRulesDraft,
    response: followRules,
  }),
  today: route({
    method: 'GET',
    path: '/api/labs/:lab/today',
    summary: 'At most five things a coach should act on, and how many chance alone would give',
    params: inLab,
    query: todayQuery,
    response: todayView,
  }),
  before: route({
    method: 'GET',
    path: '/api/labs/:lab/before',
    summary: 'The smallest gain a squad’s test can confirm, by trials and sessions',
    params: inLab,
    query: squadQuery,
    response: beforeView,
  }),
  reliabilityByRule: route({
    method: 'GET',
    path: '/api/labs/:lab/reliability/rules',
    summary: 'Which onset rule is the most reliable here, on the same efforts',
    params: inLab,
    query: squadQuery.omit({ against: true }).extend({
      sessions: z.coerce.number().int().min(2).max(20).default(2),
    }),
    response: reliabilityByRule,
  }),
  norms: route({
    method: 'GET',
    path: '/api/labs/:lab/norms',
    summary: 'The lab’s own values by sex and age, with n',
    params: inLab,
    query: squadQuery.omit({ squad: true }),
    response: normsView,
  }),
  publishedNorms: route({
    method: 'GET',
    path: '/api/labs/:lab/norms/published',
    summary: 'Published values of other people in a test and metric, with their sources',
    params: inLab,
    query: squadQuery.pick({ test: true, metric: true }),
    response: publishedView,
  }),
  publishedPlace: route({
    method: 'GET',
    path: '/api/labs/:lab/norms/published/:id',
    summary: 'Where one value stands in one published group; kept nowhere',
    params: inLabById,
    query: placeQuery,
    response: publishedPlace,
  }),
  asymmetry: route({
    method: 'GET',
    path: '/api/labs/:lab/people/:id/asymmetry',
    summary: 'Which side an athlete leans to from session to session, and whether it is more than noise',
    params: inLabById,
    query: z.object({ test: z.string().optional(), metric: z.string().optional() }),
    response: asymmetryView,
  }),
  battery: route({
    method: 'GET',
    path: '/api/labs/:lab/people/:id/battery',
    summary: 'Ratios of an athlete’s tests with both sides of each, their error, and why one cannot be given',
    params: inLabById,
    query: batteryQuery,
    response: batteryView,
  }),
  curves: route({
    method: 'GET',
    path: '/api/labs/:lab/people/:id/curves',
    summary: 'Mean curves of several sessions, aligned at the onset',
    params: inLabById,
    query: curvesQuery,
    response: curvesView,
  }),
  returnAfterInjury: route({
    method: 'GET',
    path: '/api/labs/:lab/people/:id/return',
    summary: 'A limb against its own value before an injury',
    params: inLabById,
    query: returnQuery,
    response: returnView,
  }),
  athleteNotes: route({
    method: 'GET',
    path: '/api/labs/:lab/people/:id/notes',
    summary: 'Remarks, injuries, targets and positions of an athlete',
    params: inLabById,
    response: z.array(athleteNote),
  }),
  addAthleteNote: route({
    method: 'POST',
    path: '/api/labs/:lab/people/:id/notes',
    summary: 'Write something down of an athlete',
    params: inLabById,
    body: athleteNoteDraft,
    response: athleteNote,
  }),
  changeAthleteNote: route({
    method: 'PUT',
    path: '/api/labs/:lab/notes/:id',
    summary: 'Correct a note; what it said before is kept',
    params: inLabById,
    body: athleteNoteChange,
    response: athleteNote,
  }),
  takeBackAthleteNote: route({
    method: 'POST',
    path: '/api/labs/:lab/notes/:id/take-back',
    summary: 'Take a note back; its history is kept',
    params: inLabById,
    body: athleteNoteTakenBack,
    response: z.object({ id: z.string() }),
  }),
  adoptions: route({
    method: 'GET',
    path: '/api/labs/:lab/adoptions',
    summary: 'Reliability studies whose error squads are judged by',
    params: inLab,
    response: z.array(adoption),
  }),
  adopt: route({
    method: 'POST',
    path: '/api/labs/:lab/adoptions',
    summary: 'Adopt a reliability study as the noise of a squad or of everybody',
    params: inLab,
    body: adoptionDraft,
    response: adoption,
  }),
  endAdoption: route({
    method: 'POST',
    path: '/api/labs/:lab/adoptions/:id/end',
    summary: 'Judge by the history again instead of an adopted study',
    params: inLabById,
    body: adoptionEnd,
    response: z.array(adoption),
  }),
  blindStudies: route({
    method: 'GET',
    path: '/api/labs/:lab/blind-studies',
    summary: 'Double readings of trials',
    params: inLab,
    response: z.array(blindStudy),
  }),
  createBlindStudy: route({
    method: 'POST',
    path: '/api/labs/:lab/blind-studies',
    summary: 'Draw a sample of trials for two or more readers',
    params: inLab,
    body: blindStudyDraft,
    response: blindStudy,
  }),
  blindTask: route({
    method: 'GET',
    path: '/api/labs/:lab/blind-studies/:id/next',
    summary: 'The next trial of a reader, without what the method says',
    params: inLabById,
    query: z.object({ reader: z.coerce.number().int().min(0).max(3) }),
    response: blindTask,
  }),
  readBlind: route({
    method: 'POST',
    path: '/api/labs/:lab/blind-studies/:id/readings',
    summary: 'Say where the pull begins and whether it counts',
    params: inLabById,
    body: blindReadingDraft.extend(by.shape),
    response: blindTask,
  }),
  closeBlindStudy: route({
    method: 'POST',
    path: '/api/labs/:lab/blind-studies/:id/close',
    summary: 'End the reading and show the comparison',
    params: inLabById,
    body: by,
    response: blindResults,
  }),
  blindResults: route({
    method: 'GET',
    path: '/api/labs/:lab/blind-studies/:id',
    summary: 'How readers agree with each other and with the method; only of a closed study',
    params: inLabById,
    response: blindResults,
  }),
};
