import { describe, expect, it } from 'vitest';
import { flashLimit } from './flash-limit.ts';
import { heardAt, soundedMessage } from './heard.ts';
import { pitchOf } from './tones.ts';

// Expected values by hand from the definitions of the Web Audio API (see heardAt): a stamp says that second 10.00 of the output's
// clock left the loudspeaker at 5000 ms of the device's.
describe('when a tone is heard', () => {
  const stamp = { contextTime: 10, performanceTime: 5000 };
  it('follows the time stamps of the output', () => {
    // Now 5005 ms, second 10.045 is being rendered: 40 ms lie between rendering and hearing. The tone starts at 10.050.
    const heard = heardAt(10.05, { currentTime: 10.045, stamp, outputLatency: 0.2, baseLatency: 0.01 }, 5005);
    expect(heard).toEqual({ at: expect.closeTo(5050, 6), delay: expect.closeTo(40, 6), delayFrom: 'measured' });
  });
  it('takes what the browser states where stamps are missing, old or impossible', () => {
    const output = { currentTime: 10, outputLatency: 0.03, baseLatency: 0.01 };
    const stated = { at: expect.closeTo(5040, 6), delay: expect.closeTo(30, 6), delayFrom: 'stated' };
    expect(heardAt(10.01, output, 5000)).toEqual(stated);
    expect(heardAt(10.01, { ...output, stamp: { contextTime: 0, performanceTime: 0 } }, 5000)).toEqual(stated);
    expect(heardAt(10.01, { ...output, stamp: { contextTime: 1, performanceTime: 100 } }, 5000)).toEqual(stated);
    // A stamp that would have the tone heard before it was asked for.
    expect(heardAt(10.01, { ...output, stamp: { contextTime: 12, performanceTime: 4990 } }, 5000)).toEqual(stated);
  });
  it('says that it does not know where nothing is told', () => {
    expect(heardAt(2, { currentTime: 2 }, 100)).toEqual({ at: 100, delay: 0, delayFrom: 'unknown' });
    expect(soundedMessage('c1', { at: 3, way: 'flash', delay: 0, delayFrom: 'unknown' })).toEqual({
      type: 'cue-sounded',
      cue: 'c1',
      at: 3,
      way: 'flash',
      delay: 0,
      delayFrom: 'unknown',
    });
  });
});

it('gives neighbouring rigs different pitches', () => {
  const pitches = ['A', 'B', 'C', 'D'].map((letter) => pitchOf('go', letter));
  expect(pitches[0]).toBe(880);
  expect(new Set(pitches.map(Math.round)).size).toBe(4);
});

it('never lets more than two flashes begin in a second, and never leaves out the cue', () => {
  const may = flashLimit();
  expect([0, 200, 400, 499, 500, 700, 1000].map((at) => may(at, false))).toEqual([
    true,
    false,
    false,
    false,
    true,
    false,
    true,
  ]);
  expect(may(1001, true)).toBe(true);
});
