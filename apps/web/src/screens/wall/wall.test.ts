import type { WallRig } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import type { Trace } from '../../live/index.ts';
import { wallForce, wallLine, wallNext, wallNumber } from './wall-words.ts';

const rig: WallRig = {
  rig: 'a',
  letter: 'A',
  shape: 'circle',
  phase: 'pull',
  who: 'Ines',
  now: 'Keep pushing',
  held: false,
  scale: 3000,
};
const trace: Trace = { first: 0, bucket: 5, rate: 1000, low: [0, 900, 500], high: [10, 1000, 600] };

describe('the wall', () => {
  it('counts up with the pull and then holds the result', () => {
    expect(wallNumber(rig, trace)).toBe('1000');
    expect(wallForce(rig, trace)).toBe(600);
    const result = { trial: 't', verdict: 'repeat' as const, say: 'Wait for the cue', highest: 1200, best: false };
    expect(wallNumber({ ...rig, phase: 'verdict', result }, trace)).toBe('1200');
    expect(wallForce({ ...rig, phase: 'verdict', result }, trace)).toBe(1200);
    expect(wallLine({ ...rig, result })).toBe('Wait for the cue');
  });
  it('shows the height of a jump in centimetres, and no force', () => {
    const result = { trial: 't', verdict: 'counts' as const, say: 'Good', height: 0.3824, best: true };
    const jumped: WallRig = { ...rig, jump: true, phase: 'verdict', result };
    expect(wallNumber(jumped, undefined)).toBe('38.2');
    expect(wallForce(jumped, undefined)).toBeUndefined();
    expect(wallNumber({ ...rig, jump: true, phase: 'jump', stage: 'flight' }, undefined)).toBeUndefined();
  });
  it('names the next test only when no effort of this one is left, and the next person while somebody rests', () => {
    const resting: WallRig = { ...rig, phase: 'rest' };
    const pull = { rig: 'a', who: 'Ines', test: 'Isometric mid-thigh pull' };
    expect(wallNext(resting, pull)).toBe('Isometric mid-thigh pull');
    expect(wallNext({ ...resting, what: 'Second of two maximal efforts' }, pull)).toBeUndefined();
    expect(wallNext({ ...resting, what: 'Second of two maximal efforts' }, { rig: 'a', who: 'Oda' })).toBe('Oda');
    expect(wallNext(rig, { rig: 'a', who: 'Oda' })).toBeUndefined();
    expect(wallNext(resting, undefined)).toBeUndefined();
  });
  it('shows no force and no number while nothing is pulled', () => {
    for (const phase of ['waiting', 'zero', 'stand-still', 'set-up', 'rest'] as const) {
      expect(wallNumber({ ...rig, phase }, trace)).toBeUndefined();
      expect(wallForce({ ...rig, phase }, trace)).toBeUndefined();
    }
    expect(wallLine(rig)).toBe('Keep pushing');
    expect(wallLine({ ...rig, now: undefined })).toBe('');
  });
});
