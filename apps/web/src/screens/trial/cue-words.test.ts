import { describe, expect, it } from 'vitest';
import { cueWords } from './cue-words.ts';
import { setupWords } from './setup-words.ts';

describe('how the cue was given', () => {
  it('names the device, the delay and how well both clocks agree', () => {
    expect(
      cueWords({
        device: 'Tablet by the rack',
        way: 'tone',
        after: 43.2,
        delay: 12.25,
        delayFrom: 'measured',
        clockWithin: 1.4,
      }),
    ).toBe(
      'Sounded by Tablet by the rack 43 ms after the station asked for it; 12 ms of that in its output, measured; the clocks agree within 1.4 ms',
    );
  });
  it('says what is not known instead of giving a nought', () => {
    expect(cueWords({ device: 'Floor 1a2b', way: 'flash', after: 20, delay: 0, delayFrom: 'unknown' })).toBe(
      'Shown by Floor 1a2b 20 ms after the station asked for it; the delay of its output is not known; the clocks were not compared',
    );
    expect(cueWords({ way: 'station', after: 0, delayFrom: 'unknown' })).toBe(
      'Given by the station; no device said when it was heard',
    );
  });
});

describe('the setup of a session', () => {
  it("is named as the lab's own protocol names it, with its unit", () => {
    const fields = [
      { id: 'strap_hole', title: 'Hole of the strap', kind: 'number' as const },
      { id: 'knee', title: 'Knee angle', kind: 'number' as const, unit: 'deg' },
    ];
    expect(setupWords('imtp', { knee: 128, strap_hole: 4, colour: 'blue' }, fields as never)).toEqual([
      'Hole of the strap 4',
      'Knee angle 128\u00a0°',
      'colour blue',
    ]);
  });
});
