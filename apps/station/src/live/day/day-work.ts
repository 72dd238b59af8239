import { isDeepStrictEqual } from 'node:util';
import type {
  BatteryOrder,
  Day,
  DayDraft,
  DayPlan,
  DayRow,
  dayChange,
  dayDraft,
  dayOrder,
  entryChange,
  entryDraft,
} from '@sthene/contract';
import type { UtcInstant } from '@sthene/core';
import type { DayEntry, TestDay } from '@sthene/store';
import type { z } from 'zod';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError, problems } from '../../server/problem-error.ts';
import { createPerson } from '../../work/people.ts';
import type { LiveLab } from '../live-lab.ts';
import { closeRig, openRig } from '../rig/rig-work.ts';
import { checksBeforeDay } from '../rig-check/day-gate.ts';
import { firstOrder, placeInBattery, sorted } from './battery-order.ts';
import { askedOnce, type DaySettings, loadDay } from './loaded.ts';
import { planFor, type WantedPlan } from './plan.ts';
import { dayView } from './view.ts';

/** Test days, newest first. */
export async function listDays({ lab }: LiveLab): Promise<DayRow[]> {
  const days = await lab.store.days.list();
  return Promise.all(
    days.map(async (day) => {
      const entries = await lab.store.dayEntries.ofDay(day.id);
      const trials = await Promise.all(
        entries.map(async ({ session }) =>
          session === undefined ? 0 : (await lab.store.trials.ofSession(session)).length,
        ),
      );
      return {
        id: day.id,
        date: day.date,
        title: day.title,
        status: day.status,
        tests: (day.plans as DayPlan[]).map(({ test }) => test),
        people: new Set(entries.map(({ person }) => person)).size,
        trials: trials.reduce((sum, one) => sum + one, 0),
      };
    }),
  );
}

/** A day as screens show it, open or not. */
export async function showDay(live: LiveLab, id: string): Promise<Day> {
  if (live.loaded?.day.id === id) return live.views.day() as Day;
  return dayView(await loadDay(live.lab, await dayOf(live, id)), live.views.moment());
}

async function dayOf({ lab }: LiveLab, id: string): Promise<TestDay> {
  const day = await lab.store.days.get(id);
  if (day === undefined) throw problems.notFound('day');
  return day;
}

/** Reads the day again where it is the open one, and answers with it. */
async function after(live: LiveLab, id: string): Promise<Day> {
  if (live.loaded === undefined || live.loaded.day.id === id) await live.refresh();
  return showDay(live, id);
}

/** Plans a day: people as named, then the members of a squad, each once. */
export async function createDay(live: LiveLab, draft: z.infer<typeof dayDraft> | DayDraft): Promise<Day> {
  const { lab } = live;
  const actor = await lab.actor(draft.by);
  for (const rig of draft.rigs) if ((await lab.store.rigs.get(rig)) === undefined) throw problems.notFound('rig');
  const plans = onRigs(await plansFor(lab, draft.tests), draft.testRigs, draft.rigs);
  const squad = draft.squad === undefined ? [] : await lab.store.people.list({ squad: draft.squad, active: true });
  const people = [...new Set([...(draft.people ?? []), ...squad.map(({ id }) => id)])];
  const day = await lab.store.transaction(async (inside) => {
    const added = await inside.days.add(
      {
        date: draft.date,
        title: draft.title ?? '',
        plans,
        rigs: draft.rigs,
        settings: {
          handsFree: draft.handsFree ?? false,
          wallNames: draft.wallNames ?? 'given-name',
          ...(draft.heatSize === undefined ? {} : { heatSize: draft.heatSize }),
          ...(draft.battery === undefined ? {} : { battery: draft.battery }),
        } satisfies DaySettings,
        notes: draft.notes ?? '',
      },
      actor,
    );
    for (const [i, one] of firstOrder(people, plans, draft.battery).entries())
      await inside.dayEntries.add({ day: added.id, ...one, position: i + 1, walkIn: false }, actor);
    return added;
  });
  return after(live, day.id);
}

/**
 * The plans with the rigs they are bound to.
 *
 * @param bound for all tests, where it is given: one that is not named is done on any rig
 */
function onRigs(
  plans: readonly DayPlan[],
  bound: Readonly<Record<string, readonly string[]>> | undefined,
  rigs: readonly string[],
): DayPlan[] {
  return plans.map(({ rigs: before, ...plan }) => {
    const own = (bound === undefined ? before : bound[plan.test]) ?? [];
    if (own.some((rig) => !rigs.includes(rig)))
      throw problems.invalid('A test is bound to a rig that is not on this day.');
    return own.length === 0 ? plan : { ...plan, rigs: [...own] };
  });
}

/** A test stands once on a day, so two protocols of one test cannot be on the same one. */
async function plansFor(lab: OpenLab, wanted: readonly WantedPlan[]): Promise<DayPlan[]> {
  const plans = await Promise.all(wanted.map((one) => planFor(lab, one)));
  if (new Set(plans.map(({ test }) => test)).size < plans.length)
    throw problems.invalid('A day runs each test by one protocol; choose one of the two.');
  return plans;
}

export async function changeDay(live: LiveLab, id: string, change: z.infer<typeof dayChange>): Promise<Day> {
  const { lab } = live;
  const before = await dayOf(live, id);
  const { by, tests, handsFree, wallNames, heatSize, title, date, rigs, notes, battery, testRigs } = change;
  const { heatSize: heatsBefore, battery: batteryBefore, ...settings } = before.settings as DaySettings;
  const heats = heatSize === undefined ? heatsBefore : (heatSize ?? undefined);
  const order = battery === undefined ? batteryBefore : (battery ?? undefined);
  if (before.status === 'open' && [tests, handsFree, rigs, testRigs].some((one) => one !== undefined))
    throw dayIsOpen();
  const plans = tests === undefined ? (before.plans as DayPlan[]) : await plansFor(lab, tests);
  if (batteryBefore !== undefined && order === undefined) await answersApart(live, id, by);
  await lab.store.days.change(
    id,
    {
      ...(title === undefined ? {} : { title }),
      ...(date === undefined ? {} : { date }),
      ...(rigs === undefined ? {} : { rigs }),
      ...(notes === undefined ? {} : { notes }),
      ...(tests === undefined && testRigs === undefined && rigs === undefined
        ? {}
        : {
            plans: onRigs(
              plans,
              testRigs ?? stillThere(before.plans as DayPlan[], rigs ?? before.rigs),
              rigs ?? before.rigs,
            ),
          }),
      settings: {
        ...settings,
        ...(handsFree === undefined ? {} : { handsFree }),
        ...(wallNames === undefined ? {} : { wallNames }),
        ...(heats === undefined ? {} : { heatSize: heats }),
        ...(order === undefined ? {} : { battery: order }),
      } satisfies DaySettings,
    },
    await lab.actor(by),
  );
  if (order !== undefined && order !== batteryBefore) await sortAnew(live, id, plans, order, by);
  return after(live, id);
}

/** Where the tests stand apart from now on, what was answered once for all of them stays with each. */
async function answersApart({ lab }: LiveLab, id: string, by: string): Promise<void> {
  const actor = await lab.actor(by);
  const own = new Map((await lab.store.dayEntries.ofDay(id)).map((entry) => [entry.id, entry.readiness]));
  const answered = (await askedOnce(lab, id)).filter((entry) => !isDeepStrictEqual(entry.readiness, own.get(entry.id)));
  await lab.store.transaction(async (inside) => {
    for (const entry of answered) await inside.dayEntries.change(entry.id, { readiness: entry.readiness }, actor);
  });
}

/** A rig that was taken off the day is taken off its tests too. */
const stillThere = (plans: readonly DayPlan[], rigs: readonly string[]): Record<string, string[]> =>
  Object.fromEntries(plans.map(({ test, rigs: own = [] }) => [test, own.filter((one) => rigs.includes(one))]));

/** The running order in the order of the battery: people as they stood, each with their tests as they stood. */
async function sortAnew(
  live: LiveLab,
  id: string,
  plans: readonly DayPlan[],
  order: BatteryOrder,
  by: string,
): Promise<void> {
  const entries = sorted(await live.lab.store.dayEntries.ofDay(id), plans, order);
  if (entries.length > 0) await orderDay(live, id, { entries: entries.map((one) => one.id), by });
}

const dayIsOpen = () =>
  new ProblemError(
    409,
    'day-is-open',
    'Tests, rigs and the way of cueing cannot be changed while the day is open.',
    'Close the day, change it, and open it again. Nothing is lost by that.',
  );

/** Begins a day or goes on with one. Its rigs are opened for its tests; one day is open at a time. */
export async function openDay(live: LiveLab, id: string, by: string): Promise<Day> {
  const { lab } = live;
  const day = await dayOf(live, id);
  if (live.loaded !== undefined && live.loaded.day.id !== id)
    throw new ProblemError(
      409,
      'another-day-open',
      `The day "${live.loaded.day.title || live.loaded.day.date}" is open.`,
      'Close it first.',
    );
  // A day that goes on after a restart is not stopped in its middle.
  const warnings = day.status === 'open' ? [] : await checksBeforeDay(live, day.rigs);
  if (day.status !== 'open')
    await lab.store.days.change(
      id,
      { status: 'open', ...(day.openedAt === undefined ? { openedAt: now(live) } : {}), closedAt: undefined },
      await lab.actor(by),
    );
  await live.refresh();
  live.awake.hold(() => live.tellDay());
  // A rig that was opened without a day does not know the day's tests.
  for (const rig of day.rigs) {
    if (live.rigs.has(rig)) await closeRig(live, rig);
    await openRig(live, rig);
  }
  // A rig that is closed and opened forgets what was told of it.
  for (const warning of warnings) live.raise(warning);
  live.start();
  void live.nextUp.choose();
  return showDay(live, id);
}

/** Ends a day; its rigs are closed. */
export async function closeDay(live: LiveLab, id: string, by: string): Promise<Day> {
  const { lab } = live;
  const day = await dayOf(live, id);
  if (live.effortUnderWay())
    throw new ProblemError(409, 'effort-under-way', 'An effort is under way.', 'Wait for its end, or stop it.');
  if (day.status === 'open') {
    await lab.store.days.change(id, { status: 'closed', closedAt: now(live) }, await lab.actor(by));
    for (const rig of day.rigs) if (live.rigs.has(rig)) await closeRig(live, rig);
    live.awake.release();
    await live.refresh();
  }
  return showDay(live, id);
}

const now = (live: LiveLab): UtcInstant => live.ports.clock.wall();

/** Puts the entries named in the order named; others keep their places after them. */
export async function orderDay(live: LiveLab, id: string, order: z.infer<typeof dayOrder>): Promise<Day> {
  const { lab } = live;
  const entries = await lab.store.dayEntries.ofDay(id);
  const known = new Map(entries.map((entry) => [entry.id, entry]));
  if (order.entries.some((one) => !known.has(one))) throw problems.notFound('entry of this day');
  const first = new Set(order.entries);
  const sorted = [...first, ...entries.map((entry) => entry.id).filter((one) => !first.has(one))];
  const actor = await lab.actor(order.by);
  await lab.store.transaction(async (inside) => {
    for (const [i, entry] of sorted.entries())
      if (known.get(entry)?.position !== i + 1) await inside.dayEntries.change(entry, { position: i + 1 }, actor);
  });
  return after(live, id);
}

/** Adds someone: planned, late or walk-in. */
export async function addEntry(live: LiveLab, id: string, draft: z.infer<typeof entryDraft>): Promise<Day> {
  const { lab } = live;
  const day = await dayOf(live, id);
  const plans = day.plans as DayPlan[];
  const { battery } = day.settings as DaySettings;
  const wanted = draft.test === undefined ? plans.slice(0, battery === undefined ? 1 : plans.length) : [];
  const tests = draft.test === undefined ? wanted.map((plan) => plan.test) : [draft.test];
  if (tests.length === 0 || tests.some((test) => !plans.some((plan) => plan.test === test)))
    throw problems.notFound('test on this day');
  const actor = await lab.actor(draft.by);
  const person =
    'id' in draft.person ? draft.person.id : (await createPerson(lab.store, withoutGaps(draft.person.create))).id;
  if ((await lab.store.people.get(person)) === undefined) throw problems.notFound('person');
  const entries = await lab.store.dayEntries.ofDay(id);
  const missing = tests.filter((test) => !entries.some((entry) => entry.person === person && entry.test === test));
  if (missing.length === 0)
    throw new ProblemError(
      409,
      'already-on-the-day',
      'This person is on the day with this test already.',
      'Change that entry; its state can be set back to waiting.',
    );
  await lab.store.transaction(async (inside) => {
    const there = [...entries];
    for (const [i, test] of missing.entries()) {
      const asked = i === 0 ? draft.position : undefined;
      const position = placeFor(there, asked ?? placeInBattery(there, { person, test }, plans, battery));
      const added = await inside.dayEntries.add({ day: id, person, position, test, walkIn: draft.walkIn }, actor);
      there.splice(there.findLastIndex((one) => one.position < position) + 1, 0, added);
    }
  });
  return after(live, id);
}

const withoutGaps = <T extends object>(draft: T) => JSON.parse(JSON.stringify(draft)) as T;

function placeFor(entries: readonly DayEntry[], wanted: number | undefined): number {
  const last = entries.at(-1)?.position ?? 0;
  if (wanted === undefined || wanted > entries.length) return Math.floor(last) + 1;
  const next = entries[wanted - 1]?.position ?? 1;
  const before = entries[wanted - 2]?.position ?? next - 1;
  return (before + next) / 2;
}

/** Readiness, setup, notes, state and what is still to be done. */
export async function changeEntry(live: LiveLab, id: string, change: z.infer<typeof entryChange>): Promise<Day> {
  const { lab } = live;
  const entry = await lab.store.dayEntries.get(id);
  if (entry === undefined) throw problems.notFound('entry');
  const others = await othersMeant(live, entry, change.state);
  const meant = new Set([id, ...others.map((one) => one.id)]);
  const onRig = [...live.turns.values()].some(({ view }) => meant.has(view.entry));
  if (onRig && (change.state !== undefined || change.fixedRig !== undefined))
    throw new ProblemError(409, 'on-the-rig', 'This person is on the rig.', 'End the turn first.');
  const actor = await lab.actor(change.by);
  const { readiness, setup, notes, state, fixedRig, remaining } = change;
  const kept = state === undefined ? {} : { state: state === 'waiting' ? ('planned' as const) : state };
  await lab.store.transaction(async (inside) => {
    for (const other of others) await inside.dayEntries.change(other.id, kept, actor);
    await inside.dayEntries.change(
      id,
      {
        ...(readiness === undefined ? {} : { readiness: { ...readiness, by: actor.by, at: now(live) } }),
        ...(setup === undefined ? {} : { setup }),
        ...(notes === undefined ? {} : { notes }),
        ...kept,
        ...(fixedRig === undefined ? {} : { fixedRig: fixedRig ?? undefined }),
        ...(remaining === undefined ? {} : { remaining }),
      },
      actor,
    );
    if (setup !== undefined && entry.session !== undefined)
      await inside.sessions.change(entry.session, { setup }, actor);
  });
  return after(live, entry.day);
}

/** In a battery somebody leaves with all their tests or comes back with them. A single test is left out by `done` or by taking it off. */
async function othersMeant(
  { lab }: LiveLab,
  entry: DayEntry,
  state: z.infer<typeof entryChange>['state'],
): Promise<DayEntry[]> {
  const day = await lab.store.days.get(entry.day);
  if ((day?.settings as DaySettings | undefined)?.battery === undefined) return [];
  const others = (await lab.store.dayEntries.ofDay(entry.day)).filter(
    (one) => one.person === entry.person && one.id !== entry.id,
  );
  if (state === 'left') return others.filter((one) => one.state === 'planned' || one.state === 'warming-up');
  return state === 'waiting' && entry.state === 'left' ? others.filter((one) => one.state === 'left') : [];
}

/** Takes someone off who has done nothing; whoever has done an effort left early instead. */
export async function removeEntry(live: LiveLab, id: string): Promise<Day> {
  const { lab } = live;
  const entry = await lab.store.dayEntries.get(id);
  if (entry === undefined) throw problems.notFound('entry');
  const busy = [...live.turns.values()].some(({ view }) => view.entry === id);
  if (entry.session !== undefined || busy)
    throw new ProblemError(
      409,
      'has-efforts',
      'This person is on the rig or has done an effort on this day.',
      'Set the state to "left" instead; what was done stays.',
    );
  await lab.store.dayEntries.change(id, { state: 'removed' }, await lab.actor('station'));
  return after(live, entry.day);
}
