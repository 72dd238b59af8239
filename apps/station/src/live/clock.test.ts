import type { UtcInstant } from '@sthene/core';
import { afterEach, expect, it } from 'vitest';
import { dateOf } from './clock.ts';

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
