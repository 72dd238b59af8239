import { describe, expect, it } from 'vitest';
import { clustersOf, type LoadedSession, loadedLast } from './loaded-sessions.ts';

const jump = (load: number | undefined, day: string, test = 'countermovement-jump') =>
  ({ load, test, session: { id: `${load} ${day}`, startedAt: `2026-${day}T09:00:00.000Z` } }) as LoadedSession;
const ids = (clusters: readonly (readonly LoadedSession[])[]) =>
  clusters.map((cluster) => cluster.map(({ session }) => session.id));

describe('the jumps of one profile', () => {
  it('has the jump without a load of that day or before it, not a later one', () => {
    const sessions = [jump(0, '03-01'), jump(0, '03-10'), jump(20, '03-10'), jump(40, '03-10'), jump(0, '03-12')];
    expect(ids(clustersOf(sessions, 14))).toEqual([['0 03-10', '20 03-10', '40 03-10']]);
    const before = sessions.filter(({ session }) => session.id !== '0 03-10');
    expect(ids(clustersOf(before, 14))).toEqual([['0 03-01', '20 03-10', '40 03-10']]);
  });

  it('has a later one, the first, only where there is none before', () => {
    const sessions = [jump(20, '03-10'), jump(40, '03-10'), jump(0, '03-12'), jump(0, '03-14')];
    expect(ids(clustersOf(sessions, 14))).toEqual([['0 03-12', '20 03-10', '40 03-10']]);
    expect(ids(clustersOf(sessions, 1))).toEqual([['20 03-10', '40 03-10']]);
  });

  it('has the newest of each load, and leaves what is older to an earlier profile', () => {
    const sessions = [jump(0, '01-10'), jump(20, '01-10'), jump(20, '03-08'), jump(0, '03-10'), jump(20, '03-10')];
    expect(ids(clustersOf(sessions, 14))).toEqual([
      ['0 01-10', '20 01-10'],
      ['0 03-10', '20 03-10'],
    ]);
  });
});

describe('the kind of jump of a profile', () => {
  const squat = (load: number | undefined, day: string) => jump(load, day, 'squat-jump');
  const counter = [jump(0, '01-10'), jump(20, '01-10')];

  it('is the one that was loaded last: an old countermovement jump hides no new squat jump', () => {
    const squats = [squat(0, '03-10'), squat(20, '03-10')];
    expect(loadedLast([counter, squats])).toBe(squats);
    expect(loadedLast([[...counter, jump(20, '03-11')], squats])[0]?.test).toBe('countermovement-jump');
    // A newer jump without a load loads nothing.
    expect(loadedLast([[...counter, jump(0, '03-12')], squats])).toBe(squats);
  });

  it('is the countermovement jump where both were loaded on one day', () => {
    expect(loadedLast([counter, [squat(20, '01-10')]])).toBe(counter);
  });

  it('is by loads that were written down, and by the others only where there are none', () => {
    const unwritten = [squat(undefined, '03-10')];
    expect(loadedLast([counter, unwritten])).toBe(counter);
    expect(loadedLast([[jump(0, '03-12')], unwritten])).toBe(unwritten);
    expect(loadedLast([[jump(0, '03-12')], []])).toEqual([]);
  });
});
