import type { SourceEvent } from '@sthene/core';
import type { HeaderEvent } from './header.ts';
import type { Notices } from './notices.ts';
import { numbersOf, type Parameter, stringsOf } from './parameters.ts';

/**
 * Times of EVENT:TIMES in seconds: minutes and seconds per event, `60 min + s`, added in double precision.
 *
 * Dimensions `[2, n]` hold pairs; `[n, 2]` with n other than 2 holds all minutes, then all seconds.
 *
 * Source: C3D User Guide, EVENT group (c3d.org), and the dimensions seen in public files.
 */
export function eventTimes(values: readonly number[], dimensions: readonly number[]): number[] {
  const [first = 0, second = 0] = dimensions;
  if (first !== 2 && second === 2) {
    return Array.from({ length: first }, (_, i) => 60 * (values[i] ?? Number.NaN) + (values[first + i] ?? Number.NaN));
  }
  return Array.from({ length: Math.floor(values.length / 2) }, (_, i) => {
    return 60 * (values[2 * i] as number) + (values[2 * i + 1] as number);
  });
}

/** What places event times on the recording's own clock. */
export interface EventClock {
  /** Seconds of recording. */
  readonly duration: number;
  readonly firstFrame: number;
  readonly frameRate: number;
}

/**
 * Events of the EVENT group and of the header, in seconds from the first sample, sorted by time.
 *
 * Some writers count from the start of the capture instead: when a time lies past the end, all of the group's times are
 * shifted back by the frames before the first one. A label carries its side or context in front ("Left Foot Strike").
 * An event of the header that repeats one of the group is told once.
 */
export function eventsOf(
  header: readonly HeaderEvent[],
  parameters: ReadonlyMap<string, Parameter>,
  clock: EventClock,
  notices: Notices,
): SourceEvent[] {
  const stored = parameters.get('EVENT:TIMES');
  const used = numbersOf(parameters.get('EVENT:USED'), { unsigned: true })[0];
  let times = eventTimes(numbersOf(stored), stored?.dimensions ?? []);
  if (used !== undefined) times = times.slice(0, used);
  const before = clock.firstFrame > 1 ? (clock.firstFrame - 1) / clock.frameRate : 0;
  // Half a frame of tolerance: an event on the last frame may be rounded past the end.
  const past = times.some((time) => time > clock.duration + 0.5 / clock.frameRate);
  if (past && before > 0) {
    times = times.map((time) => time - before);
    notices.add('c3d-events-shifted', `Event times count from the start of the capture; ${before} s were subtracted.`);
  }
  const labels = stringsOf(parameters.get('EVENT:LABELS'));
  const contexts = stringsOf(parameters.get('EVENT:CONTEXTS'));
  const events = times.map((time, i): SourceEvent => {
    const label = [contexts[i] ?? '', labels[i] ?? ''].filter((part) => part !== '').join(' ');
    return { label: label === '' ? 'event' : label, time };
  });
  for (const event of header) {
    const known = events.some((other) => Math.abs(other.time - event.time) < 0.5 / clock.frameRate);
    if (!known) events.push({ label: event.label === '' ? 'event' : event.label, time: event.time });
  }
  const placed = events.filter((event) => Number.isFinite(event.time));
  if (placed.length < events.length) {
    notices.add('c3d-events-without-time', `${events.length - placed.length} events have no readable time.`);
  }
  return placed.sort((a, b) => a.time - b.time);
}
