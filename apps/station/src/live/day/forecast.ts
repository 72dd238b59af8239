import type { DayForecast, PlannedEffort } from '@sthene/contract';
import { type Candidate, chooseNext } from './order.ts';

/** Someone with what is left for them. Times in s from now. */
export interface ForecastEntry {
  readonly entry: string;
  readonly position: number;
  readonly rig?: string | undefined;
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
): PlayedForward {
  const heats = new Map<number, number>();
  if (rigs.length === 0) return { end: 0, heats };
  const people = entries.map(({ onRig, ...one }) => ({
    ...one,
    heat: one.heat ?? 1,
    goesOn: onRig,
    left: one.remaining.length,
    readyAt: Math.max(0, one.readyIn),
  }));
  const begun = new Set(people.filter((one) => one.begun || one.goesOn !== undefined).map(({ heat }) => heat));
  const busy = new Map(rigs.map((rig) => [rig, 0]));
  for (const one of people) {
    if (one.goesOn === undefined || one.left === 0) continue;
    busy.set(one.goesOn, turnSeconds);
    finish(one, turnSeconds);
  }
  let end = Math.max(0, ...busy.values());
  for (let steps = 0; steps < 5000 && people.some(({ left }) => left > 0); steps++) {
    const [rig, free] = [...busy].sort((a, b) => a[1] - b[1])[0] as [string, number];
    const candidates: readonly Candidate[] = people;
    const [choice] = chooseNext([rig], candidates, free);
    if (choice === undefined) {
      busy.delete(rig);
      if (busy.size === 0) break;
      continue;
    }
    const done = choice.at + turnSeconds;
    busy.set(rig, done);
    end = Math.max(end, done);
    const one = people.find(({ entry }) => entry === choice.entry);
    if (one === undefined) continue;
    if (!begun.has(one.heat) && !heats.has(one.heat)) heats.set(one.heat, choice.at);
    finish(one, done);
  }
  return { end, heats };
}

/** Seconds until the last effort is done. */
export const secondsToEnd = (...day: Parameters<typeof playForward>): number => playForward(...day).end;

function finish(one: { left: number; readyAt: number; begun: boolean; readonly rest: number }, at: number): void {
  one.left -= 1;
  one.readyAt = at + one.rest;
  one.begun = true;
}

/** When the day will be over, and what leaving a step out for everyone would save. */
export function forecastOf(
  rigs: readonly string[],
  entries: readonly ForecastEntry[],
  turnSeconds: number,
  now: number,
): DayForecast {
  const { end: seconds, heats } = playForward(rigs, entries, turnSeconds);
  const saved = (without: Without) =>
    seconds -
    secondsToEnd(
      rigs,
      entries.map((one) => ({ ...one, remaining: without(one.remaining, one.needed ?? 0) })),
      turnSeconds,
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
