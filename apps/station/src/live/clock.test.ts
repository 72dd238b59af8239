import type { UtcInstant } from '@sthene/core';
import { afterEach, expect, it } from 'vitest';
import { dateOf, spanOfDay } from './clock.ts';

const zone = process.env.TZ;
afterEach(() => {
  if (zone === undefined) delete process.env.TZ;
  else process.env.TZ = zone;
});

// The days of the instants were counted by hand from the offsets of the IANA zones.
it.each([
  ['UTC', '2026-11-27T23:30:00.000Z', '2026-11-27'],
  ['Pacific/Auckland', '2026-11-27T23:30:00.000Z', '2026-11-28'],
  ['America/Los_Angeles', '2026-12-01T07:30:00.000Z', '2026-11-30'],
])('in %s the date of %s is %s', (place, instant, date) => {
  process.env.TZ = place;
  expect(dateOf(instant as UtcInstant)).toBe(date);
});

// Sydney is at +11:00 in summer and at +10:00 from 5 April 2026, 3:00 in the morning, on: that day has 25 hours.
it.each([
  ['UTC', '2026-03-02', '2026-03-02T00:00:00.000Z', '2026-03-03T00:00:00.000Z'],
  ['Australia/Sydney', '2026-03-02', '2026-03-01T13:00:00.000Z', '2026-03-02T13:00:00.000Z'],
  ['Australia/Sydney', '2026-04-05', '2026-04-04T13:00:00.000Z', '2026-04-05T14:00:00.000Z'],
  ['Australia/Sydney', '2026-12-31', '2026-12-30T13:00:00.000Z', '2026-12-31T13:00:00.000Z'],
])('in %s %s goes from %s to %s', (place, date, from, until) => {
  process.env.TZ = place;
  expect(spanOfDay(date)).toEqual([from, until]);
});
