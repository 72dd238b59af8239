import type { Day, DayEntry, RigView } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { beforeOpening, forecastWords, peopleOf, restLeft, unfinished } from './standing.ts';

const forecast = {
  endsAt: new Date(2026, 10, 25, 16, 40).toISOString(),
  secondsLeft: 5000,
  effortsLeft: 23,
  savings: [{ step: 'last-maximal', words: 'One maximal effort less', seconds: 720 }],
};

describe('forecastWords', () => {
  it('says when it is over and what a step left out would save', () => {
    expect(forecastWords(forecast)).toEqual({
      end: 'Ends at about 16:40: 83\u00a0min more, 23 efforts left.',
      savings: ['With one maximal effort less for each: 12\u00a0min sooner.'],
    });
    expect(forecastWords({ ...forecast, effortsLeft: 1 }).end).toContain('1 effort left');
  });
  it('ends sooner where virtual plates play faster than life', () => {
    const end = new Date(Date.parse(forecast.endsAt) - 4000 * 1000);
    const time = `${end.getHours()}:${String(end.getMinutes()).padStart(2, '0')}`;
    expect(forecastWords(forecast, 5).end).toBe(`Ends at about ${time}: 17\u00a0min more, 23 efforts left.`);
    expect(restLeft(72, 1000, 11_000, 5)).toBe(22);
  });
  it('promises no time when nothing is left', () => {
    expect(forecastWords({ ...forecast, effortsLeft: 0 })).toEqual({ end: 'Nothing is left to do.', savings: [] });
  });
});

it('counts a rest down from when it was heard, never up', () => {
  expect(restLeft(72, 1000, 11_000)).toBe(62);
  expect(restLeft(72, 1000, 500)).toBe(72);
  expect(restLeft(5, 0, 9000)).toBe(-4);
});

const entry = (state: DayEntry['state'], remaining: number, allowed: DayEntry['allowed'] = 'maximal', who = 'wren') =>
  ({
    person: { id: who },
    state,
    allowed,
    remaining: Array.from({ length: remaining }, () => ({ kind: 'maximal' })),
  }) as unknown as DayEntry;
const day = (rigs: string[], entries: DayEntry[]) => ({ rigs, entries }) as unknown as Day;
const rig = {
  id: 'a',
  name: 'Rack one',
  state: 'closed',
  words: 'The rig is closed.',
  rate: { promised: 1000, differs: false },
  disk: { bytesPerSecond: 0, warning: false },
} as unknown as RigView;

it('names who has efforts left, without those who went', () => {
  const all = [entry('waiting', 2), entry('left', 2), entry('done', 1), entry('resting', 0), entry('blocked', 3)];
  expect(unfinished(day([], all))).toEqual([all[0], all[4]]);
});

describe('beforeOpening', () => {
  it('finds nothing where nothing is missing', () => {
    expect(beforeOpening(day(['a'], [entry('waiting', 1)]), [rig])).toEqual([]);
  });
  it('names each trouble', () => {
    expect(beforeOpening(day([], []), [rig])).toHaveLength(2);
    expect(beforeOpening(day(['a', 'gone'], [entry('waiting', 1)]), [rig])).toHaveLength(1);
    const bad = {
      ...rig,
      state: 'lost' as const,
      words: 'The device is gone.',
      rate: { promised: 1000, differs: true },
      disk: { bytesPerSecond: 1, warning: true },
    };
    const found = beforeOpening(day(['a'], [entry('blocked', 1, 'nothing')]), [bad]);
    expect(found).toHaveLength(4);
    expect(found[0]).toBe('Rack one: The device is gone.');
  });
  it('counts people who may do nothing, not their tests', () => {
    const held = (who: string) => entry('blocked', 1, 'nothing', who);
    const said = (entries: DayEntry[]) => beforeOpening(day(['a'], entries), [rig]);
    expect(said([held('wren'), held('wren'), entry('waiting', 1, 'maximal', 'otter')])).toEqual(said([held('wren')]));
    expect(said([held('wren'), held('otter')])).not.toEqual(said([held('wren')]));
    expect(peopleOf([held('wren'), held('otter'), held('wren')])).toBe(2);
  });
});
