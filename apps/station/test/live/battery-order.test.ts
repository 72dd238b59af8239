import { describe, expect, it } from 'vitest';
import { firstOrder, placeInBattery, sorted } from '../../src/live/day/battery-order.ts';
import { type ForecastEntry, playForward } from '../../src/live/day/forecast.ts';
import { type Candidate, chooseNext } from '../../src/live/day/order.ts';

const one = (person: string, test: number, more: Partial<Candidate> = {}): Candidate => ({
  entry: `${person}${test}`,
  person,
  position: test,
  left: 1,
  begun: false,
  readyAt: 0,
  heat: 1,
  stage: test,
  ...more,
});

describe('who is next in a battery', () => {
  it('nobody before the test that comes first', () => {
    const waits = one('a', 2, { after: true });
    expect(chooseNext(['A'], [one('a', 1, { left: 0 }), waits], 0, 'by-test')).toEqual([]);
    expect(chooseNext(['A'], [one('a', 1), waits], 0, 'by-test')[0]?.entry).toBe('a1');
  });

  it('one athlete through all tests: the rig waits for whoever has begun there', () => {
    const resting = one('a', 2, { at: 'A', readyAt: 90_000 });
    const fresh = one('b', 1);
    expect(chooseNext(['A'], [resting, fresh], 0, 'by-person')).toEqual([{ rig: 'A', entry: 'a2', at: 90_000 }]);
    // Another rig is free for somebody new.
    expect(chooseNext(['B'], [{ ...resting, rig: 'A' }, fresh], 0, 'by-person')[0]?.entry).toBe('b1');
    // Where the tests do not go together the rest of one is the turn of another.
    expect(chooseNext(['A'], [resting, fresh], 0)[0]?.entry).toBe('b1');
  });

  it('one test for all: the second test waits for everybody who may use the rig', () => {
    const through = one('a', 2, { begun: true });
    const still = one('b', 1, { readyAt: 60_000, begun: true });
    expect(chooseNext(['A'], [through, still], 0, 'by-test')).toEqual([{ rig: 'A', entry: 'b1', at: 60_000 }]);
    // On a rig that is for the second test alone nobody waits for the first.
    const bound = [
      { ...through, rigs: ['B'] },
      { ...still, rigs: ['A'] },
    ];
    expect(chooseNext(['B'], bound, 0, 'by-test')[0]?.entry).toBe('a2');
  });

  it('only what is done on a rig, and nobody on two', () => {
    const bound = [one('a', 1, { rigs: ['A'] }), one('a', 2, { rigs: ['B'] }), one('b', 2, { rigs: ['B'] })];
    expect(chooseNext(['B'], bound.slice(0, 1), 0, 'by-test')).toEqual([]);
    const both = chooseNext(['A', 'B'], bound, 0);
    expect(both.map(({ rig, entry }) => `${rig} ${entry}`).sort()).toEqual(['A a1', 'B b2']);
    // Whoever has a turn on one rig is not called to another with the other test.
    expect(chooseNext(['B'], [one('a', 1, { onRig: true }), one('a', 2, { rigs: ['B'] })], 0)).toEqual([]);
  });
});

describe('the running order of a battery', () => {
  const plans = [{ test: 'cmj' }, { test: 'imtp' }];
  it('is person by person or test by test', () => {
    const words = (list: readonly { person: string; test: string }[]) => list.map((x) => `${x.person} ${x.test}`);
    const byPerson = firstOrder(['a', 'b'], plans, 'by-person');
    expect(words(byPerson)).toEqual(['a cmj', 'a imtp', 'b cmj', 'b imtp']);
    expect(words(firstOrder(['a', 'b'], plans, 'by-test'))).toEqual(['a cmj', 'b cmj', 'a imtp', 'b imtp']);
    expect(words(sorted(byPerson, plans, 'by-test'))).toEqual(['a cmj', 'b cmj', 'a imtp', 'b imtp']);
    // Somebody who does them the other way round keeps that.
    const turned = [
      { person: 'a', test: 'imtp' },
      { person: 'b', test: 'cmj' },
      { person: 'a', test: 'cmj' },
    ];
    expect(words(sorted(turned, plans, 'by-person'))).toEqual(['a imtp', 'a cmj', 'b cmj']);
  });

  it('puts a late arrival where they belong', () => {
    const byPerson = firstOrder(['a', 'b'], plans, 'by-person');
    expect(placeInBattery(byPerson, { person: 'c', test: 'cmj' }, plans, 'by-person')).toBeUndefined();
    expect(placeInBattery(byPerson, { person: 'a', test: 'other' }, plans, 'by-person')).toBe(3);
    const byTest = firstOrder(['a', 'b'], plans, 'by-test');
    expect(placeInBattery(byTest, { person: 'c', test: 'cmj' }, plans, 'by-test')).toBe(3);
    expect(placeInBattery(byTest, { person: 'c', test: 'imtp' }, plans, 'by-test')).toBe(5);
  });
});

describe('the end of a day with a battery', () => {
  const entries = (people: readonly string[], more: Partial<ForecastEntry>[] = [{}, {}]): ForecastEntry[] =>
    people.flatMap((person, p) =>
      more.map((own, i) => ({
        entry: `${person}${i}`,
        person,
        position: p * more.length + i,
        stage: i,
        begun: false,
        readyIn: 0,
        remaining: [{ kind: 'maximal' as const }, { kind: 'maximal' as const }],
        rest: 120,
        ...own,
      })),
    );

  it('rests in person by person, and alternates in test by test', () => {
    // Four efforts of 60 s with three rests of 120 s between them, for each of two athletes.
    expect(playForward(['A'], entries(['a', 'b']), 60, 'by-person').end).toBe(2 * (4 * 60 + 3 * 120));
    // They fill each other's rests as far as two can: a period of 180 s has an effort of each.
    expect(playForward(['A'], entries(['a', 'b']), 60, 'by-test').end).toBe(4 * 180 - 120 + 60);
  });

  it('plays every test on its rig', () => {
    const bound = entries(['a'], [{ rigs: ['A'] }, { rigs: ['B'] }]);
    // The rest goes along from one rig to the other.
    expect(playForward(['A', 'B'], bound, 60, 'by-test').end).toBe(4 * 60 + 3 * 120);
    expect(playForward(['A'], bound, 60, 'by-test').end).toBe(2 * 60 + 120);
  });

  it('counts two tests of one person as one body also without a battery', () => {
    expect(playForward(['A', 'B'], entries(['a']), 60).end).toBe(4 * 60 + 3 * 120);
  });
});
