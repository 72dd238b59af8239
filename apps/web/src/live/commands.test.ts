import { commandMessage, type RigFloor } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { commandFor, isExpired, type Sender } from './commands.ts';
import { isDue } from './cue-due.ts';

const floor: RigFloor = {
  rig: 'a',
  phase: 'ready',
  since: 0,
  turn: {
    id: 't1',
    entry: 'e1',
    person: { id: 'p', name: 'Ines', code: 'FW-07' },
    test: 'imtp',
    effort: { kind: 'maximal' },
    words: '',
  },
  trial: 't1-2',
  guided: true,
  armed: false,
  held: false,
  forces: 'total' as const,
  now: { code: '', words: '' },
  scale: { low: 0, high: 3000 },
};
const sender: Sender = { open: true, holdsControls: true, stationNow: 5000 };

describe('commandFor', () => {
  it('names turn, effort and phase it was meant for, and lives one second of the station clock', () => {
    const command = commandFor('cue', floor, sender, 'id1');
    expect(commandMessage.parse(command)).toEqual({
      type: 'command',
      id: 'id1',
      kind: 'cue',
      rig: 'a',
      turn: 't1',
      trial: 't1-2',
      phase: 'ready',
      at: 5000,
      expires: 1000,
    });
  });
  it('is not made without link, controls, clock or turn: nothing waits for a better moment', () => {
    expect(commandFor('cue', floor, { ...sender, open: false }, 'i')).toBe('link-lost');
    expect(commandFor('abort', floor, { ...sender, open: false }, 'i')).toBe('link-lost');
    expect(commandFor('cue', floor, { ...sender, holdsControls: false }, 'i')).toBe('no-controls');
    expect(commandFor('cue', floor, { ...sender, stationNow: undefined }, 'i')).toBe('clock-unknown');
    const { turn: _, ...nobody } = floor;
    expect(commandFor('cue', nobody, sender, 'i')).toBe('no-turn');
  });
  it('lets every operator stop, with or without controls and clock', () => {
    for (const kind of ['abort', 'pain', 'hold', 'disarm'] as const)
      expect(commandFor(kind, floor, { ...sender, holdsControls: false, stationNow: undefined }, 'i')).toMatchObject({
        kind,
      });
  });
});

describe('expiry', () => {
  it('ends after its second, to the millisecond', () => {
    expect(isExpired({ at: 5000, expires: 1000 }, 6000)).toBe(false);
    expect(isExpired({ at: 5000, expires: 1000 }, 6000.1)).toBe(true);
  });
  it('keeps a late, repeated or undatable cue silent', () => {
    const cue = { id: 'c', at: 5000, expires: 1000 };
    expect(isDue(cue, undefined, 5400)).toBe(true);
    expect(isDue(cue, 'c', 5400)).toBe(false);
    expect(isDue(cue, undefined, 6001)).toBe(false);
    expect(isDue(cue, undefined, undefined)).toBe(false);
  });
});
