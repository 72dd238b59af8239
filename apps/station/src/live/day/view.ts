import type { Day, DayEntry, EntryState, RestView } from '@sthene/contract';
import { protocolReference, protocolRegistry } from '@sthene/core';
import type { TrialOrigin } from '@sthene/store';
import { nameOf } from '../../work/people.ts';
import { type ForecastEntry, forecastOf, usualTurnSeconds } from './forecast.ts';
import { heatsOf } from './heats.ts';
import type { DayEffort, LoadedDay, LoadedEntry } from './loaded.ts';
import { type Candidate, type Choice, chooseNext } from './order.ts';
import { bare, rulesOf } from './plan.ts';
import { effortWords } from './remaining.ts';

/** What the moment adds to what is kept. */
export interface Moment {
  /** Wall clock, ms. */
  readonly now: number;
  /** Entry on each rig that has a turn. */
  readonly onRig: ReadonlyMap<string, string>;
  /** Rigs of the day that are open. */
  readonly rigs: readonly string[];
  /** Seconds since an effort ended: by its rig's samples while that capture runs, else by the wall clock. */
  readonly secondsSince: (effort: { readonly origin: TrialOrigin; readonly endSample: number }) => number;
  /** Efforts an entry has made that are not in the store yet. */
  readonly unkept: (entry: string) => number;
  readonly awake: Day['awake'];
}

/** Stands where no rest is too long, s. */
const longestRest = 24 * 3600;

/** Rest of an entry: seconds since its last effort and the limits that hold then. */
export interface Resting {
  readonly elapsed: number;
  readonly minimum: number;
  readonly maximum: number;
}

/** Rests count for a person, whatever test and rig they come from: of two tests the longer one holds. */
export function restingOf(
  { entry, plan, last }: LoadedEntry,
  moment: Pick<Moment, 'secondsSince'>,
): Resting | undefined {
  if (last === undefined) return undefined;
  const least = ({ rest }: ReturnType<typeof rulesOf>) =>
    last.kind === 'maximal' ? rest.minimum : rest.afterSubmaximal;
  const rules = rulesOf(plan);
  const elapsed = moment.secondsSince(last);
  if (last.entry === entry.id) return { elapsed, minimum: least(rules), maximum: rules.rest.maximum };
  // A test begins with efforts of its own, so that after another one no rest is too long.
  return { elapsed, minimum: Math.max(least(rules), least(rulesOf(last.plan))), maximum: Number.POSITIVE_INFINITY };
}

/** Rig of an entry: the one chosen for it, else the one it began on, because bar and setup stay there. */
export function rigOf({ entry, done, plan, battery, last }: LoadedEntry): string | undefined {
  const began = entry.fixedRig ?? rigOfEffort(done.findLast(({ origin }) => origin !== undefined));
  if (began !== undefined || battery === undefined) return began;
  // In a battery the weighing stays there too.
  const before = rigOfEffort(last);
  return before !== undefined && plan.rigs?.includes(before) !== false ? before : undefined;
}

const rigOfEffort = (effort: Pick<DayEffort, 'origin'> | undefined): string | undefined =>
  effort?.origin?.facts.rig?.toString();

/** Heat of each person of a day. */
const heatsOfDay = ({ entries, settings }: LoadedDay): ReadonlyMap<string, number> =>
  heatsOf(
    entries.map(({ person }) => person.id),
    settings.heatSize,
  );

/**
 * @param onRig entries that are on a rig and not to be chosen
 * @param through entries taken as done, to see what comes after them
 */
export function candidatesOf(
  loaded: LoadedDay,
  moment: Pick<Moment, 'now' | 'secondsSince' | 'unkept'>,
  onRig: ReadonlySet<string> = new Set(),
  through: ReadonlySet<string> = new Set(),
): Candidate[] {
  const heats = heatsOfDay(loaded);
  const open = new Set<string>();
  return loaded.entries.map((one) => {
    const { id, state, position } = one.entry;
    const rest = restingOf(one, moment);
    const may = (state === 'planned' || state === 'warming-up') && one.allowed !== 'nothing' && !through.has(id);
    const left = may ? Math.max(0, one.remaining.length - moment.unkept(id)) : 0;
    const after = open.has(one.person.id);
    if (left > 0 && one.battery !== undefined) open.add(one.person.id);
    return {
      entry: id,
      person: one.person.id,
      position,
      left,
      rig: rigOf(one),
      rigs: one.plan.rigs,
      begun: one.done.length > 0,
      readyAt: rest === undefined ? 0 : moment.now + 1000 * (rest.minimum - rest.elapsed),
      heat: heats.get(one.person.id) ?? 1,
      onRig: onRig.has(id),
      after,
      stage: stageOf(loaded, one),
      at: rigOfEffort(one.last),
    };
  });
}

const stageOf = ({ plans }: LoadedDay, { entry }: LoadedEntry): number =>
  plans.findIndex(({ test }) => test === entry.test);

/** Who is next on each rig. Where one athlete goes through all tests, that is their own next test as long as there is one. */
function choicesOf(loaded: LoadedDay, moment: Moment): Choice[] {
  const { battery } = loaded.settings;
  // Who is through with a test of a battery, and only still has the turn, is due on the rig of the next one.
  const isThrough = (id: string) =>
    battery !== undefined &&
    loaded.entries.some(({ entry, remaining }) => entry.id === id && remaining.length <= moment.unkept(id));
  const onRig = new Set([...moment.onRig.values()].filter((entry) => !isThrough(entry)));
  const next = (
    rigs: readonly string[],
    taken: readonly Choice[],
    on: ReadonlySet<string>,
    through?: ReadonlySet<string>,
  ) =>
    chooseNext(
      rigs,
      candidatesOf(loaded, moment, on, through).filter(({ entry }) => !taken.some((one) => one.entry === entry)),
      moment.now,
      battery,
    );
  if (battery !== 'by-person') return next(moment.rigs, [], onRig);
  const choices: Choice[] = [];
  for (const rig of moment.rigs) {
    const entry = moment.onRig.get(rig);
    if (entry === undefined) continue;
    choices.push(...next([rig], choices, new Set([...onRig].filter((one) => one !== entry)), new Set([entry])));
  }
  const free = moment.rigs.filter((rig) => !moment.onRig.has(rig));
  return [...choices, ...next(free, choices, onRig)];
}

/** A day as screens show it. */
export function dayView(loaded: LoadedDay, moment: Moment): Day {
  const { day, plans, settings } = loaded;
  const entryOnRig = new Map([...moment.onRig].map(([rig, entry]) => [entry, rig]));
  const heats = heatsOfDay(loaded);
  const heatOf = ({ person }: LoadedEntry) => (settings.heatSize === undefined ? undefined : heats.get(person.id));
  const entries = loaded.entries.map((one, i) => {
    const heat = heatOf(one);
    const view = entryView(one, i + 1, moment, entryOnRig.get(one.entry.id));
    return heat === undefined ? view : { ...view, heat };
  });
  const choices = choicesOf(loaded, moment);
  const several = plans.length > 1;
  return {
    id: day.id,
    revision: day.revision,
    date: day.date,
    title: day.title,
    status: day.status,
    tests: plans.map(bare),
    protocols: plans.map(({ document }) => ({
      sha256: protocolReference(document).sha256,
      document: document as NonNullable<Day['protocols']>[number]['document'],
    })),
    rigs: [...day.rigs],
    handsFree: settings.handsFree,
    ...(settings.heatSize === undefined ? {} : { heatSize: settings.heatSize }),
    ...(settings.battery === undefined ? {} : { battery: settings.battery }),
    wallNames: settings.wallNames,
    notes: day.notes,
    entries,
    next: choices.map(({ rig, entry, at }) => {
      const who = entries.find(({ id }) => id === entry);
      const seconds = Math.ceil((at - moment.now) / 1000);
      return {
        rig,
        entry,
        at: new Date(at).toISOString(),
        words: `${who?.person.name ?? ''}: ${several ? `${titleOf(who?.test ?? '')}, ` : ''}${lower(who?.next ?? '', several)}${seconds > 0 ? `, rests ${seconds} s more` : ''}`,
      };
    }),
    forecast: forecastOf(
      moment.rigs.length > 0 ? moment.rigs : day.rigs,
      loaded.entries.map((one) => ({
        ...forecastEntry(one, moment, entryOnRig.get(one.entry.id)),
        stage: stageOf(loaded, one),
        heat: heatOf(one) ?? 1,
      })),
      usualTurnSeconds,
      moment.now,
      settings.battery,
    ),
    cautions: [...new Set(loaded.entries.flatMap(({ protocol }) => protocol.cautions))],
    awake: moment.awake,
  };
}

const titleOf = (test: string): string => protocolRegistry.get(test)?.title ?? test;

/** Words that go on a sentence begin small. */
const lower = (words: string, goesOn: boolean): string =>
  goesOn ? `${words.slice(0, 1).toLowerCase()}${words.slice(1)}` : words;

const countingOf = ({ done }: LoadedEntry): number =>
  done.filter(({ kind, counts }) => kind === 'maximal' && counts).length;

function forecastEntry(one: LoadedEntry, moment: Moment, onRig: string | undefined): ForecastEntry {
  const rest = restingOf(one, moment);
  const gone = one.entry.state === 'left' || one.entry.state === 'done' || one.allowed === 'nothing';
  return {
    entry: one.entry.id,
    person: one.person.id,
    position: one.entry.position,
    rig: rigOf(one),
    rigs: one.plan.rigs,
    at: rigOfEffort(one.last),
    begun: one.done.length > 0,
    readyIn: rest === undefined ? 0 : rest.minimum - rest.elapsed,
    remaining: gone ? [] : one.remaining,
    rest: one.plan.rest.minimum,
    needed: Math.max(0, one.protocol.maximalTrials.minimum - countingOf(one)),
    onRig,
  };
}

function entryView(one: LoadedEntry, position: number, moment: Moment, onRig: string | undefined): DayEntry {
  const { entry, person } = one;
  const { battery } = one;
  const resting = battery?.after === undefined ? restingOf(one, moment) : undefined;
  const rest = resting === undefined || one.remaining.length === 0 ? undefined : restView(resting, moment.now);
  const fixed = entry.fixedRig;
  return {
    id: entry.id,
    revision: entry.revision,
    position,
    person: { id: person.id, name: nameOf(person), code: person.code, minor: one.minor },
    test: entry.test,
    state: stateOf(one, rest, onRig),
    ...(onRig === undefined ? {} : { rig: onRig }),
    ...(fixed === undefined ? {} : { fixedRig: fixed }),
    walkIn: entry.walkIn,
    ...(battery === undefined ? {} : { battery: { place: battery.place, of: battery.of } }),
    ...(battery?.after === undefined || onRig !== undefined ? {} : { after: battery.after }),
    ...(rest === undefined ? {} : { rest }),
    efforts: one.done.map(({ row, kind }) => ({
      trial: row.id,
      kind,
      verdict: row.verdict,
      state: row.state,
      ...(row.peakForce === undefined ? {} : { peakForce: row.peakForce }),
      unit: row.unit,
    })),
    remaining: [...one.remaining],
    next: effortWords(one.plan, one.done, one.remaining[0]),
    ...(one.readiness === undefined ? {} : { readiness: one.readiness }),
    gates: [...one.gates],
    allowed: one.allowed,
    setup: { ...entry.setup },
    ...(one.setupMissing.length === 0 ? {} : { setupMissing: [...one.setupMissing] }),
    ...(one.incomplete ? { incomplete: true } : {}),
    ...(one.lastSetup === undefined
      ? {}
      : { lastSetup: { at: one.lastSetup.at, values: { ...one.lastSetup.values } } }),
    ...(entry.session === undefined ? {} : { session: entry.session }),
    notes: entry.notes,
  };
}

function stateOf(one: LoadedEntry, rest: RestView | undefined, onRig: string | undefined): EntryState {
  if (onRig !== undefined) return 'on-rig';
  if (one.entry.state === 'left') return 'left';
  if (one.entry.state === 'done') return 'done';
  // Stopped for pain with efforts left is not done: somebody may still release them.
  if (one.allowed === 'nothing' || (one.painStopped && one.withheld && one.remaining.length === 0)) return 'blocked';
  if (one.remaining.length === 0) return 'done';
  if (rest?.state === 'too-short') return 'resting';
  return one.entry.state === 'warming-up' ? 'warming-up' : 'waiting';
}

function restView({ elapsed, minimum, maximum }: Resting, now: number): RestView | undefined {
  // Of a rest from another test only its end is of use.
  if (!Number.isFinite(maximum) && elapsed >= minimum) return undefined;
  const at = (seconds: number) => new Date(now + 1000 * (seconds - elapsed)).toISOString();
  return {
    since: at(0),
    readyAt: at(minimum),
    staleAt: at(Number.isFinite(maximum) ? maximum : longestRest),
    left: Math.ceil(minimum - elapsed),
    state: elapsed < minimum ? 'too-short' : elapsed > maximum ? 'too-long' : 'ready',
  };
}
