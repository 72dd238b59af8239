import { describe, expect, it } from 'vitest';
import { filmTime, frameLength, nearestFrame, playerTime, recordingTime, shownFrame } from './film-time.ts';

const frames = [0, 0.033, 0.067, 0.1, 0.2];
const film = { frames, nudge: 0, duration: 0.233, sync: { start: 2, rate: 1.0001, uncertainty: 0.002 } };

describe('a film beside its curve', () => {
  it('has the same instants both ways, also moved by hand', () => {
    for (const nudge of [0, 0.05, -0.4])
      for (const at of [0, 0.1, 0.2]) {
        const recording = recordingTime(film, nudge, at) as number;
        // by hand: start, the nudge, and the film's own time at the rate of the two clocks
        expect(recording).toBeCloseTo(2 + nudge + 1.0001 * at, 12);
        expect(filmTime(film, nudge, recording)).toBeCloseTo(at, 12);
      }
    const { sync: _, ...unplaced } = film;
    expect(filmTime(unplaced as never, 0, 3)).toBeUndefined();
  });
  it('shows the frame taken closest to the cursor, and none outside', () => {
    expect([0.01, 0.02, 0.149, 0.151, 0.22].map((at) => nearestFrame(film, at))).toEqual([0, 1, 3, 4, 4]);
    expect(nearestFrame(film, -0.01)).toBe(0);
    expect(nearestFrame(film, -0.2)).toBeUndefined();
    expect(nearestFrame(film, 0.4)).toBeUndefined();
    expect(nearestFrame({ ...film, frames: [] }, 0)).toBeUndefined();
  });
  it('puts the player where exactly that frame is shown', () => {
    for (const [i] of frames.entries()) expect(shownFrame(film, playerTime(film, i))).toBe(i);
    expect(frameLength(film)).toBeCloseTo(0.034, 12);
  });
});
