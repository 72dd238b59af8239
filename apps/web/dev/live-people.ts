import type { Day, DayEntry, LiveTurn, RigView } from '@sthene/contract';

/** Invented rowers of the invented club Fernwater. */
const people = [
  { id: 'p1', name: 'Ines Okoro', code: 'FW-07', given: 'Ines' },
  { id: 'p2', name: 'Tomas Brandt', code: 'FW-11', given: 'Tomas' },
  { id: 'p3', name: 'Mira Castell', code: 'FW-03', given: 'Mira' },
  { id: 'p4', name: 'Jonas Wick', code: 'FW-19', given: 'Jonas' },
  { id: 'p5', name: 'Lea Aubert', code: 'FW-22', given: 'Lea' },
] as const;

export const givenName = (person: string): string => people.find(({ id }) => id === person)?.given ?? '';

const test = 'imtp';
const maximal = { kind: 'maximal' as const };

const entryOf = (i: number, state: DayEntry['state'], next: string): DayEntry => {
  const { id, name, code } = people[i] as (typeof people)[number];
  return {
    id: `e${i + 1}`,
    revision: 1,
    position: i + 1,
    person: { id, name, code, minor: false },
    test,
    state,
    walkIn: false,
    efforts: [],
    remaining: [maximal, maximal],
    next,
    gates: [],
    allowed: 'maximal',
    setup: {},
    lastSetup: {
      at: '2025-11-20T16:00:00.000Z',
      values: { bar_height: 68, knee_angle: 135, hip_angle: 143, grip: 'mixed', straps: 'straps', belt: false },
    },
    notes: '',
  };
};

/** A day in progress. */
export function scriptedDay(now: number): Day {
  const rest = (left: number) => ({
    since: new Date(now - 1000 * (180 - left)).toISOString(),
    readyAt: new Date(now + 1000 * left).toISOString(),
    staleAt: new Date(now + 1000 * (left + 600)).toISOString(),
    left,
    state: 'too-short' as const,
  });
  return {
    id: 'd1',
    revision: 1,
    date: '2026-01-14',
    title: 'Winter test, first boat',
    status: 'open',
    tests: [
      {
        test,
        efforts: [{ kind: 'submaximal', share: 0.75 }, maximal, maximal, maximal],
        rest: { minimum: 180, maximum: 900 },
      },
    ],
    rigs: ['rig-a'],
    handsFree: false,
    wallNames: 'given-name',
    notes: '',
    entries: [
      { ...entryOf(0, 'on-rig', 'Second of three maximal efforts'), rig: 'rig-a' },
      { ...entryOf(1, 'resting', 'First of three maximal efforts'), rest: rest(72) },
      entryOf(2, 'warming-up', 'Submaximal effort at 75 %'),
      {
        ...entryOf(3, 'blocked', 'No effort allowed'),
        allowed: 'nothing',
        gates: [{ kind: 'clearance', effect: 'blocks', limb: 'both', words: 'Clearance is withheld.' }],
      },
      entryOf(4, 'waiting', 'Submaximal effort at 50 %'),
    ],
    next: [{ rig: 'rig-a', entry: 'e2', at: new Date(now + 72_000).toISOString(), words: 'Tomas is rested first.' }],
    forecast: { endsAt: new Date(now + 3_600_000).toISOString(), secondsLeft: 3600, effortsLeft: 11, savings: [] },
    cautions: [
      'Stop on pain, dizziness or numbness.',
      'Straps can be released at once and a spotter stands ready.',
      'No maximal effort without a warm-up.',
    ],
    awake: { held: true, words: 'This machine stays awake.' },
  };
}

export const scriptedTurn = (effort: LiveTurn['effort']): LiveTurn => ({
  id: 't1',
  entry: 'e1',
  person: { id: 'p1', name: 'Ines Okoro', code: 'FW-07' },
  test,
  effort,
  words: effort.kind === 'maximal' ? 'Second of three maximal efforts' : 'Submaximal effort at 75 %',
});

export const scriptedRig: RigView = {
  id: 'rig-a',
  revision: 1,
  name: 'Rack by the window',
  letter: 'A',
  shape: 'circle',
  notes: '',
  sources: [{ id: 's1', name: 'Virtual plates', state: 'measuring', words: 'Samples arrive.' }],
  state: 'measuring',
  words: 'Samples arrive.',
  rate: { promised: 1000, measured: 1000.2, uncertainty: 0.1, differs: false },
  channels: [],
  counts: { samples: 0, gaps: 0, missing: 0, doubled: 0, late: 0, swapped: 0, checksum: 0, unreadable: 0 },
  zero: { held: true, words: 'Zero taken.' },
  disk: { bytesPerSecond: 32_000, warning: false },
  clock: { evidence: 'good', words: 'Tied to the station.' },
};
