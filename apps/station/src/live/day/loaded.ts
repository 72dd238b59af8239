import type { BatteryOrder, DayPlan, PlannedEffort, Readiness, StandingGate, TrialRow } from '@sthene/contract';
import { inShort, type Protocol, type SetRule } from '@sthene/core';
import type { DayEntry, Gate, Person, Setup, StandingTrial, TestDay, TrialOrigin } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { findMethod } from '../../work/methods.ts';
import { trialRow } from '../../work/sessions.ts';
import { endSampleOf } from '../rig/keep-trial.ts';
import { type Allowed, hasConsentOnRecord, isMinor, standingGates } from './gates.ts';
import { planFor, type RunPlan, rulesOf, runPlan, setRuleFor, testOf } from './plan.ts';
import { type Done, isIncomplete, remainingOf } from './remaining.ts';

/** Settings of a day as they are kept. */
export interface DaySettings {
  readonly handsFree: boolean;
  readonly wallNames: 'name' | 'given-name' | 'code';
  /** The tests of a person are one visit, with one weighing on each rig. */
  readonly battery?: BatteryOrder;
  /** People of a heat; absent: everybody is one heat. */
  readonly heatSize?: number;
}

/** An effort of this day with where its samples are. */
export interface DayEffort extends Done {
  /** Of the result in force. */
  readonly resultId: string;
  readonly row: TrialRow;
  readonly origin?: TrialOrigin;
  /** Sample of the capture at which the effort ended. */
  readonly endSample?: number;
}

/** An effort with the entry it was made in. */
export interface LastEffort extends DayEffort {
  readonly origin: TrialOrigin;
  readonly endSample: number;
  readonly entry: string;
  readonly plan: RunPlan;
}

export interface BatteryPlace {
  /** From 1. */
  readonly place: number;
  readonly of: number;
  /** The entry that comes before, while it is not done. */
  readonly after?: string;
}

/** An entry with everything that decides what comes next for it. */
export interface LoadedEntry {
  readonly entry: DayEntry;
  readonly person: Person;
  /** The test as the protocol of the plan has it. */
  readonly protocol: Protocol;
  readonly plan: RunPlan;
  readonly done: readonly DayEffort[];
  /** The last effort of this person today, of whichever test. */
  readonly last?: LastEffort;
  /** Where this entry stands among the tests of the person's battery; absent without one. */
  readonly battery?: BatteryPlace;
  /** What is still planned and allowed. */
  readonly remaining: readonly PlannedEffort[];
  /** More is planned than the gates allow. */
  readonly withheld: boolean;
  readonly gates: readonly StandingGate[];
  readonly allowed: Allowed;
  /** Fewer efforts count than the protocol asks for, and none is left. */
  readonly incomplete: boolean;
  /** Needed setup fields without a value. */
  readonly setupMissing: readonly string[];
  readonly minor: boolean;
  /** A consent that is in force stands on record, apart from what was answered today. */
  readonly consent: boolean;
  readonly painStopped: boolean;
  /** Readiness answers as screens show them: with the name of who asked. */
  readonly readiness?: Readiness & { readonly by: string; readonly at: string };
  readonly lastSetup?: { readonly at: string; readonly values: Setup };
}

export interface LoadedDay {
  readonly day: TestDay;
  readonly plans: readonly RunPlan[];
  readonly settings: DaySettings;
  readonly entries: readonly LoadedEntry[];
}

/** Results by their id: what was read once is never another. */
type KnownResults = ReadonlyMap<string, DayEffort['result']>;

const resultsIn = (entries: readonly LoadedEntry[]): KnownResults =>
  new Map(entries.flatMap(({ done }) => done.map(({ resultId, result }) => [resultId, result] as const)));

/** What the store knows of the people of a day and their efforts: asked in a few questions, however many they are. */
interface DayFacts {
  readonly people: ReadonlyMap<string, Person>;
  readonly gates: ReadonlyMap<string, readonly Gate[]>;
  /** By session. */
  readonly trials: ReadonlyMap<string, readonly StandingTrial[]>;
  /** By trial. */
  readonly origins: ReadonlyMap<string, TrialOrigin>;
  readonly results: KnownResults;
}

async function factsOf({ store }: OpenLab, entries: readonly DayEntry[], results: KnownResults): Promise<DayFacts> {
  const ids = [...new Set(entries.map(({ person }) => person))];
  const [people, gates, trials] = await Promise.all([
    store.people.getMany(ids),
    store.gates.ofPeople(ids),
    store.trials.standingInMany(entries.flatMap(({ session }) => session ?? [])),
  ]);
  const origins = await store.origins.ofTrials([...trials.values()].flat().map(({ trial }) => trial.id));
  return { people: new Map(people.map((person) => [person.id, person])), gates, trials, origins, results };
}

/**
 * Reads a day with its running order from the store.
 *
 * @param before the day as it was read last: of its efforts only how they stand is asked again, however many there are by now
 */
export async function loadDay(lab: OpenLab, day: TestDay, before?: LoadedDay): Promise<LoadedDay> {
  const plans = await Promise.all((day.plans as DayPlan[]).map((plan) => runPlan(lab, plan)));
  const settings = day.settings as DaySettings;
  const entries =
    settings.battery === undefined ? await lab.store.dayEntries.ofDay(day.id) : await askedOnce(lab, day.id);
  const { set } = await findMethod(lab);
  const facts = await factsOf(lab, entries, resultsIn(before?.entries ?? []));
  const loaded = await Promise.all(entries.map((entry) => loadEntry(lab, day, plans, set, entry, facts)));
  return { day, plans, settings, entries: withOthers(loaded, settings.battery !== undefined) };
}

/** What the other tests of the same person have to do with an entry. */
function withOthers(entries: readonly LoadedEntry[], battery: boolean): LoadedEntry[] {
  return entries.map((one) => {
    const own = entries.filter(({ person }) => person.id === one.person.id);
    const last = lastOf(own);
    return {
      ...one,
      ...(last === undefined ? {} : { last }),
      ...(battery && own.length > 1 ? { battery: placeOf(own, one) } : {}),
    };
  });
}

function lastOf(own: readonly LoadedEntry[]): LastEffort | undefined {
  let last: LastEffort | undefined;
  for (const { entry, plan, done } of own)
    for (const one of done)
      if (one.origin !== undefined && one.endSample !== undefined)
        if (last === undefined || one.origin.endedAt > last.origin.endedAt)
          last = { ...one, origin: one.origin, endSample: one.endSample, entry: entry.id, plan };
  return last;
}

function placeOf(own: readonly LoadedEntry[], one: LoadedEntry): BatteryPlace {
  const at = own.indexOf(one);
  const before = own.slice(0, at).findLast(isOpen);
  return { place: at + 1, of: own.length, ...(before === undefined ? {} : { after: before.entry.id }) };
}

/** Something is left that may be done: somebody who left, or whom a gate holds back, keeps nobody waiting. */
export const isOpen = ({ entry, remaining, allowed }: LoadedEntry): boolean =>
  entry.state !== 'left' && entry.state !== 'done' && allowed !== 'nothing' && remaining.length > 0;

async function loadEntry(
  lab: OpenLab,
  day: TestDay,
  plans: readonly RunPlan[],
  set: SetRule,
  entry: DayEntry,
  facts: DayFacts,
): Promise<LoadedEntry> {
  const person = facts.people.get(entry.person);
  if (person === undefined) throw new Error('an entry without its person');
  const plan = plans.find(({ test }) => test === entry.test) ?? (await runPlan(lab, await planFor(lab, entry.test)));
  const protocol = testOf(plan);
  const gates = facts.gates.get(person.id) ?? [];
  const [done, lastSetup] = await Promise.all([
    effortsOf(lab, entry, facts),
    lab.store.sessions.lastSetup({ person: entry.person, protocol: entry.test, except: entry.session }),
  ]);
  const standing = standingGates({
    gates,
    protocol,
    date: day.date,
    birthDate: person.birthDate,
    readiness: entry.readiness as Readiness | undefined,
    confirmWarmUp: plan.document.warmUp.confirm,
  });
  const readiness = entry.readiness as LoadedEntry['readiness'];
  const minor = isMinor({ birthDate: person.birthDate, date: day.date });
  const planned =
    (entry.remaining as PlannedEffort[] | undefined) ??
    remainingOf(plan, done, protocol, rulesOf(plan), minor, setRuleFor(set, plan));
  const remaining = standing.allowed === 'submaximal' ? planned.filter(({ kind }) => kind !== 'maximal') : planned;
  return {
    entry: await withName(lab, entry),
    person,
    protocol,
    plan,
    done,
    remaining,
    withheld: remaining.length < planned.length,
    gates: standing.gates,
    allowed: standing.allowed,
    incomplete: isIncomplete(plan, done, planned, protocol),
    setupMissing: missingIn(protocol, entry.setup),
    minor,
    consent: hasConsentOnRecord({ gates, protocol, date: day.date, birthDate: person.birthDate }),
    painStopped: gates.some((gate) => isPainStop(gate, day.date)),
    ...(readiness === undefined ? {} : { readiness: { ...readiness, by: await lab.nameOf(readiness.by) } }),
    ...(lastSetup === undefined ? {} : { lastSetup }),
  };
}

/** Who asked the readiness questions, by name and not by account. */
async function withName(lab: OpenLab, entry: DayEntry): Promise<DayEntry> {
  const answers = entry.readiness as { readonly by?: string } | undefined;
  if (answers?.by === undefined) return entry;
  return { ...entry, readiness: { ...answers, by: await lab.nameOf(answers.by) } };
}

/**
 * The entries of a battery with what their person answered last on this day, in whichever of them: one that comes later has it too, and
 * it stays when the test is taken off at which it was asked.
 */
export async function askedOnce(lab: OpenLab, day: string): Promise<DayEntry[]> {
  const newest = new Map<string, { readonly at: string }>();
  const entries = await lab.store.dayEntries.ofDay(day, { removed: true });
  for (const { person, readiness } of entries) {
    const answers = readiness as { readonly at: string } | undefined;
    if (answers !== undefined && !((newest.get(person)?.at ?? '') > answers.at)) newest.set(person, answers);
  }
  return entries.flatMap((entry) => {
    if (entry.state === 'removed') return [];
    const readiness = newest.get(entry.person);
    return [readiness === undefined ? entry : { ...entry, readiness }];
  });
}

const missingIn = ({ setupFields }: Protocol, setup: Setup): string[] =>
  setupFields
    .filter(({ id, required }) => required && (setup[id] === undefined || setup[id] === ''))
    .map(({ id }) => id);

const isPainStop = (gate: Gate, date: string): boolean =>
  gate.kind === 'pain-stop' &&
  gate.granted &&
  gate.released === undefined &&
  gate.from <= date &&
  (gate.until === undefined || gate.until >= date);

async function effortsOf(lab: OpenLab, { session }: DayEntry, facts: DayFacts): Promise<DayEffort[]> {
  const trials = session === undefined ? [] : (facts.trials.get(session) ?? []);
  const efforts = await Promise.all(
    trials.map(async ({ trial, standing }): Promise<DayEffort[]> => {
      const origin = facts.origins.get(trial.id);
      const inForce = await resultOf(lab, trial.id, standing.result, facts.results);
      if (inForce === undefined) return [];
      const { resultId, result } = inForce;
      const row = trialRow({ trial, standing }, result);
      return [
        {
          kind: trial.effort,
          resultId,
          result,
          counts: row.state === 'counts' || row.state === 'overruled',
          row,
          ...(origin === undefined ? {} : { origin, endSample: endSampleOf({ span: origin.span, result }) }),
          ...(typeof origin?.facts.ended === 'string' ? { ended: origin.facts.ended } : {}),
        },
      ];
    }),
  );
  return efforts.flat();
}

async function resultOf(
  lab: OpenLab,
  trial: string,
  newest: string | undefined,
  known: KnownResults,
): Promise<Pick<DayEffort, 'resultId' | 'result'> | undefined> {
  const result = newest === undefined ? undefined : known.get(newest);
  if (newest !== undefined && result !== undefined) return { resultId: newest, result };
  const read = await lab.store.results.current(trial);
  return read && { resultId: read.id, result: inShort(read.document) };
}

/** Stands in the place of an entry for somebody who has not been weighed yet; never stored. */
export function unknownEntry(day: string, plan: RunPlan, reference: string): LoadedEntry {
  return {
    entry: {
      id: '',
      revision: 0,
      day,
      person: reference,
      position: 0,
      test: plan.test,
      walkIn: true,
      state: 'planned',
      setup: {},
      notes: '',
    },
    person: { id: reference, revision: 0, code: '', givenName: 'Walk-in', familyName: '', notes: '', active: true },
    protocol: testOf(plan),
    plan,
    done: [],
    remaining: plan.efforts,
    withheld: false,
    gates: [],
    allowed: 'maximal',
    incomplete: false,
    setupMissing: [],
    minor: false,
    consent: false,
    painStopped: false,
  };
}
