import type { Day, DayEntry, EntryState, RestView } from '@sthene/contract';
import { protocolReference } from '@sthene/core';
import type { TrialOrigin } from '@sthene/store';
import { nameOf } from '../../work/people.ts';
import { type ForecastEntry, forecastOf, usualTurnSeconds } from './forecast.ts';
import { heatsOf } from './heats.ts';
import type { DayEffort, LoadedDay, LoadedEntry } from './loaded.ts';
import { type Candidate, chooseNext } from './order.ts';
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

/** Rest of an entry: seconds since its last effort and the limits that hold then. */
export interface Resting {
  readonly elapsed: number;
  readonly minimum: number;
  readonly maximum: number;
}

export function restingOf(loaded: LoadedEntry, moment: Pick<Moment, 'secondsSince'>): Resting | undefined {
  const last = loaded.done.findLast((one) => one.origin !== undefined);
  if (last === undefined || !hasOrigin(last)) return undefined;
  const { rest } = rulesOf(loaded.plan);
  return {
    elapsed: moment.secondsSince(last),
    minimum: last.kind === 'maximal' ? rest.minimum : rest.afterSubmaximal,
    maximum: rest.maximum,
  };
}

const hasOrigin = (one: DayEffort): one is DayEffort & { origin: TrialOrigin; endSample: number } =>
  one.origin !== undefined && one.endSample !== undefined;

/** Rig of an entry: the one chosen for it, else the one it began on; bar and setup stay there. */
export function rigOf({ entry, done }: LoadedEntry): string | undefined {
  return entry.fixedRig ?? done.findLast(({ origin }) => origin !== undefined)?.origin?.facts.rig?.toString();
}

/** Heat of each person of a day. */
const heatsOfDay = ({ entries, settings }: LoadedDay): ReadonlyMap<string, number> =>
  heatsOf(
    entries.map(({ person }) => person.id),
    settings.heatSize,
  );

/** @param onRig entries that are on a rig and not to be chosen */
export function candidatesOf(
  loaded: LoadedDay,
  moment: Pick<Moment, 'now' | 'secondsSince' | 'unkept'>,
  onRig: ReadonlySet<string> = new Set(),
): Candidate[] {
  const heats = heatsOfDay(loaded);
  return loaded.entries.map((one) => {
    const rest = restingOf(one, moment);
    const may = one.entry.state === 'planned' || one.entry.state === 'warming-up';
    const allowed = one.allowed !== 'nothing';
    return {
      entry: one.entry.id,
      position: one.entry.position,
      left: may && allowed ? Math.max(0, one.remaining.length - moment.unkept(one.entry.id)) : 0,
      rig: rigOf(one),
      begun: one.done.length > 0,
      readyAt: rest === undefined ? 0 : moment.now + 1000 * (rest.minimum - rest.elapsed),
      heat: heats.get(one.person.id) ?? 1,
      onRig: onRig.has(one.entry.id),
    };
  });
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
  const choices = chooseNext(moment.rigs, candidatesOf(loaded, moment, new Set(entryOnRig.keys())), moment.now);
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
        words: `${who?.person.name ?? ''}: ${who?.next ?? ''}${seconds > 0 ? `, rests ${seconds} s more` : ''}`,
      };
    }),
    forecast: forecastOf(
      moment.rigs.length > 0 ? moment.rigs : day.rigs,
      loaded.entries.map((one) => ({
        ...forecastEntry(one, moment, entryOnRig.get(one.entry.id)),
        heat: heatOf(one) ?? 1,
      })),
      usualTurnSeconds,
      moment.now,
    ),
    cautions: [...new Set(loaded.entries.flatMap(({ protocol }) => protocol.cautions))],
    awake: moment.awake,
  };
}

const countingOf = ({ done }: LoadedEntry): number =>
  done.filter(({ kind, counts }) => kind === 'maximal' && counts).length;

function forecastEntry(one: LoadedEntry, moment: Moment, onRig: string | undefined): ForecastEntry {
  const rest = restingOf(one, moment);
  const gone = one.entry.state === 'left' || one.entry.state === 'done' || one.allowed === 'nothing';
  return {
    entry: one.entry.id,
    position: one.entry.position,
    rig: rigOf(one),
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
  const resting = restingOf(one, moment);
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

function restView({ elapsed, minimum, maximum }: Resting, now: number): RestView {
  const at = (seconds: number) => new Date(now + 1000 * (seconds - elapsed)).toISOString();
  return {
    since: at(0),
    readyAt: at(minimum),
    staleAt: at(maximum),
    left: Math.ceil(minimum - elapsed),
    state: elapsed < minimum ? 'too-short' : elapsed > maximum ? 'too-long' : 'ready',
  };
}
