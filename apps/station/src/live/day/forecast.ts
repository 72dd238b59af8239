import type { BatteryOrder, DayForecast, PlannedEffort } from '@sthene/contract';
import { chooseNext } from './order.ts';

/** Someone with what is left for them. Times in s from now. */
export interface ForecastEntry {
  readonly entry: string;
  /** Absent: nobody has a second entry. */
  readonly person?: string;
  readonly position: number;
  readonly rig?: string | undefined;
  /** Rigs the test is done on; absent: any. */
  readonly rigs?: readonly string[] | undefined;
  /** In a battery: place of the test in the plan. */
  readonly stage?: number;
  /** In a battery: the rig of this person's last effort today. */
  readonly at?: string | undefined;
  readonly begun: boolean;
  /** Seconds until the rest is over; 0 or less: now. */
  readonly readyIn: number;
  readonly remaining: readonly PlannedEffort[];
  /** Rest after an effort, s. */
  readonly rest: number;
  /** Maximal efforts that must still be made by the protocol. */
  readonly needed?: number;
  /** On a rig now. */
  readonly onRig?: string | undefined;
  /** Heat, from 1; absent: 1. */
  readonly heat?: number;
}

/** What playing the rest of a day forward shows, s from now. */
export interface PlayedForward {
  readonly end: number;
  /** When each heat begins of which nobody has begun yet, by its number. */
  readonly heats: ReadonlyMap<number, number>;
}

/** Time one visit to the rig takes before anything was measured today, s: zero, stand, set up, pull, verdict. */
export const usualTurnSeconds = 60;

/**
 * Plays the rest of the day forward with the very rule that chooses who is next.
 *
 * @param turnSeconds time one effort takes on the rig
 */
export function playForward(
  rigs: readonly string[],
  entries: readonly ForecastEntry[],
  turnSeconds: number,
  battery?: BatteryOrder,
): PlayedForward {
  const heats = new Map<number, number>();
  if (rigs.length === 0) return { end: 0, heats };
  const people = entries
    .map(({ onRig, ...one }) => ({
      ...one,
      person: one.person ?? one.entry,
      heat: one.heat ?? 1,
      goesOn: onRig,
      left: one.remaining.length,
      readyAt: Math.max(0, one.readyIn),
      after: false,
    }))
    .sort((a, b) => a.position - b.position);
  const begun = new Set(people.filter((one) => one.begun || one.goesOn !== undefined).map(({ heat }) => heat));
  const busy = new Map(rigs.map((rig) => [rig, 0]));
  /** Rigs for which nobody is due before something has happened on another one. */
  const idle = new Map<string, number>();
  for (const one of people) {
    if (one.goesOn === undefined || one.left === 0) continue;
    busy.set(one.goesOn, turnSeconds);
    finish(people, one, one.goesOn, turnSeconds, battery);
  }
  let end = Math.max(0, ...busy.values());
  for (let steps = 0; steps < 5000 && people.some(({ left }) => left > 0); steps++) {
    const [rig, free] = [...busy].sort((a, b) => a[1] - b[1])[0] as [string, number];
    if (battery !== undefined) putInOrder(people);
    const [choice] = chooseNext([rig], people, free, battery);
    if (choice === undefined) {
      busy.delete(rig);
      idle.set(rig, free);
      if (busy.size === 0) break;
      continue;
    }
    // Who is ready later may be overtaken by somebody who comes from another rig until then.
    const elsewhere = Math.min(...[...busy].flatMap(([id, at]) => (id !== rig && at > free ? at : [])));
    if (battery !== undefined && choice.at > elsewhere) {
      busy.set(rig, elsewhere);
      continue;
    }
    const done = choice.at + turnSeconds;
    busy.set(rig, done);
    end = Math.max(end, done);
    const one = people.find(({ entry }) => entry === choice.entry);
    if (one === undefined) continue;
    if (!begun.has(one.heat) && !heats.has(one.heat)) heats.set(one.heat, choice.at);
    finish(people, one, rig, done, battery);
    for (const [waiting, since] of idle) busy.set(waiting, since);
    idle.clear();
  }
  return { end, heats };
}

/** In a battery a test waits until the tests of the same person before it are done. */
function putInOrder(people: readonly Playing[]): void {
  const open = new Set<string>();
  for (const one of people) {
    one.after = open.has(one.person);
    if (one.left > 0) open.add(one.person);
  }
}

/** Seconds until the last effort is done. */
export const secondsToEnd = (...day: Parameters<typeof playForward>): number => playForward(...day).end;

/** Somebody as the day is played, in the running order. */
interface Playing {
  readonly entry: string;
  readonly person: string;
  readonly position: number;
  readonly rest: number;
  readonly rigs?: readonly string[] | undefined;
  readonly heat: number;
  rig?: string | undefined;
  at?: string | undefined;
  left: number;
  readyAt: number;
  begun: boolean;
  after: boolean;
}

/** An effort is done: the person rests from it in every test, and in a battery stays on its rig where the next test allows it. */
function finish(
  people: readonly Playing[],
  one: Playing,
  rig: string,
  at: number,
  battery: BatteryOrder | undefined,
): void {
  one.left -= 1;
  one.begun = true;
  for (const other of people) {
    if (other.person !== one.person) continue;
    other.readyAt = at + Math.max(one.rest, other.rest);
    if (battery === undefined) continue;
    other.at = rig;
    if (other.rigs?.includes(rig) !== false) other.rig ??= rig;
  }
}

/** When the day will be over, and what leaving a step out for everyone would save. */
export function forecastOf(
  rigs: readonly string[],
  entries: readonly ForecastEntry[],
  turnSeconds: number,
  now: number,
  battery?: BatteryOrder,
): DayForecast {
  const { end: seconds, heats } = playForward(rigs, entries, turnSeconds, battery);
  const saved = (without: Without) =>
    seconds -
    secondsToEnd(
      rigs,
      entries.map((one) => ({ ...one, remaining: without(one.remaining, one.needed ?? 0) })),
      turnSeconds,
      battery,
    );
  const savings = steps.flatMap(({ step, words, without }) => {
    const less = Math.round(saved(without));
    return less >= 1 ? [{ step, words, seconds: less }] : [];
  });
  const instant = (later: number) => new Date(now + 1000 * later).toISOString();
  return {
    endsAt: instant(seconds),
    secondsLeft: Math.round(seconds),
    effortsLeft: entries.reduce((sum, { remaining }) => sum + remaining.length, 0),
    savings,
    ...(heats.size === 0 ? {} : { heats: [...heats].map(([heat, at]) => ({ heat, startsAt: instant(at) })) }),
  };
}

type Without = (remaining: readonly PlannedEffort[], needed: number) => readonly PlannedEffort[];

const steps: readonly { step: string; words: string; without: Without }[] = [
  {
    step: 'last-maximal',
    words: 'One maximal effort less for everyone who has two or more left and more than must count',
    without: (remaining, needed) =>
      remaining.filter(({ kind }) => kind === 'maximal').length > Math.max(1, needed)
        ? remaining.slice(0, -1)
        : remaining,
  },
  {
    step: 'first-submaximal',
    words: 'One submaximal effort less for everyone who has two left',
    without: (remaining) =>
      remaining.filter(({ kind }) => kind === 'submaximal').length > 1 ? remaining.slice(1) : remaining,
  },
];
