import { afterEach, describe, expect, it } from 'vitest';
import { calendarDay, dayAt, matches, nearestApart } from './match.ts';

const zone = process.env.TZ;
afterEach(() => {
  if (zone === undefined) delete process.env.TZ;
  else process.env.TZ = zone;
});

const at = (...instants: string[]) => instants.map((one) => ({ at: `2026-${one}:00.000Z` }));
const pairs = (tests: readonly (readonly { at: string }[])[], apart = 14) =>
  matches(tests, apart).map(({ sessions, days }) => [...sessions.map((one) => one.at.slice(5, 16)), days]);

describe('sessions that belong together', () => {
  it('are those of a visit where there were two on one day', () => {
    const jumps = at('03-02T08:00', '03-02T15:00');
    const pulls = at('03-02T08:40', '03-02T15:30');
    const each = [
      ['03-02T08:00', '03-02T08:40', 0],
      ['03-02T15:00', '03-02T15:30', 0],
    ];
    expect(pairs([jumps, pulls])).toEqual(each);
    // Whichever of the two came first.
    expect(pairs([pulls, jumps])).toEqual(each.map(([a, b, days]) => [b, a, days]));
  });

  it('are never paired crosswise: the nearest go first, and the rest among themselves', () => {
    // The second pull is nearest to the first jump by days as well as the first one is.
    expect(pairs([at('03-02T09:00', '03-04T09:00'), at('03-02T10:00', '03-03T18:00')])).toEqual([
      ['03-02T09:00', '03-02T10:00', 0],
      ['03-04T09:00', '03-03T18:00', 1],
    ]);
    // What the nearest have taken, a session does without, and takes the next one.
    expect(pairs([at('03-02T09:00', '03-02T12:00'), at('03-01T09:00', '03-02T11:00')])).toEqual([
      ['03-02T09:00', '03-01T09:00', 1],
      ['03-02T12:00', '03-02T11:00', 0],
    ]);
  });

  it('use no session twice and lie no further apart than asked', () => {
    expect(pairs([at('03-02T09:00', '03-03T09:00'), at('03-02T10:00')])).toEqual([['03-02T09:00', '03-02T10:00', 0]]);
    expect(pairs([at('03-02T09:00'), at('03-16T09:00')], 14)).toHaveLength(1);
    expect(pairs([at('03-02T09:00'), at('03-16T09:00')], 13)).toEqual([]);
    expect(nearestApart([at('03-02T09:00'), at('03-16T09:00', '03-20T09:00')])).toBe(14);
    expect(nearestApart([at('03-02T09:00'), []])).toBeUndefined();
  });

  it('of three tests are one of each', () => {
    expect(pairs([at('03-02T09:00', '03-09T09:00'), at('03-02T09:20', '03-09T09:20'), at('03-09T09:40')])).toEqual([
      ['03-09T09:00', '03-09T09:20', '03-09T09:40', 0],
    ]);
  });
});

// Sydney is 11 hours ahead of UTC in March until the first Sunday of April (IANA zone, counted by hand).
describe('days between tests', () => {
  it('are those of the calendar at the station', () => {
    process.env.TZ = 'Australia/Sydney';
    // Half past nine and half past eleven of one morning there, in Greenwich of two days.
    const [early, late] = ['2026-03-01T22:30:00.000Z', '2026-03-02T00:30:00.000Z'];
    expect([dayAt(early), dayAt(late)]).toEqual(['2026-03-02', '2026-03-02']);
    expect(pairs([at('03-01T22:30'), at('03-02T00:30')], 0)).toEqual([['03-01T22:30', '03-02T00:30', 0]]);
    // Late in the evening and the next morning there, in Greenwich of one day.
    expect(pairs([at('03-02T11:00'), at('03-02T21:00')], 0)).toEqual([]);
    expect(nearestApart([at('03-02T11:00'), at('03-02T21:00')])).toBe(1);
    process.env.TZ = 'UTC';
    expect(pairs([at('03-01T22:30'), at('03-02T00:30')], 0)).toEqual([]);
    expect(pairs([at('03-02T11:00'), at('03-02T21:00')], 0)).toHaveLength(1);
  });

  it('are whole over a change of the clocks', () => {
    process.env.TZ = 'Australia/Sydney';
    // Noon of 4 and of 6 April 2026; the clocks went back on the 5th.
    expect(calendarDay('2026-04-06T02:00:00.000Z') - calendarDay('2026-04-04T01:00:00.000Z')).toBe(2);
  });
});
