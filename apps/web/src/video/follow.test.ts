import type { RigFloor } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { afterPull, blindFor, follow, longestWait, type Under } from './follow.ts';

const floor = (phase: RigFloor['phase'], allowed = true, turn = 'turn-1') =>
  ({ phase, turn: { id: turn }, film: { allowed, words: '' } }) as RigFloor;

/** Plays phases at times and gives what the camera did. */
function acts(...steps: (readonly [number, RigFloor | undefined, number?])[]) {
  let under: Under | undefined;
  const done: string[] = [];
  for (const [now, at, heard] of steps) {
    const next = follow(under, at, now, heard ?? now);
    under = next.under;
    if (next.act !== undefined) done.push(`${next.act} ${now}`);
  }
  return done;
}

describe('a camera', () => {
  it('begins when a turn is ready and ends two seconds after the pull', () => {
    expect(
      acts(
        [0, floor('set-up')],
        [100, floor('ready')],
        [4000, floor('cue')],
        [7000, floor('pull')],
        [12_000, floor('verdict')],
        [12_000 + afterPull - 1, floor('rest')],
        [12_000 + afterPull, floor('rest')],
      ),
    ).toEqual(['start 100', `keep ${12_000 + afterPull}`]);
  });
  it('throws away what shows no pull', () => {
    expect(acts([0, floor('ready')], [10, floor('cue')], [20, floor('set-up')])).toEqual(['start 0', 'discard 20']);
    expect(acts([0, floor('ready')], [10, undefined])).toEqual(['start 0', 'discard 10']);
  });
  it('does not film whom it may not, and stops when that changes', () => {
    expect(acts([0, floor('ready', false)], [10, floor('pull', false)])).toEqual([]);
    expect(acts([0, floor('ready')], [10, floor('pull')], [20, floor('pull', false)])).toEqual([
      'start 0',
      'discard 20',
    ]);
    expect(
      acts([0, floor('ready')], [10, floor('pull')], [20, floor('verdict')], [30, floor('verdict', false)]),
    ).toEqual(['start 0', 'discard 30']);
  });
  it('begins anew instead of filming minutes of waiting', () => {
    const late = longestWait + 1;
    expect(acts([0, floor('ready')], [late, floor('ready')], [late + 250, floor('ready')])).toEqual([
      'start 0',
      `discard ${late}`,
      `start ${late + 250}`,
    ]);
  });
  it('keeps what shows a pull when the station falls silent, and begins nothing then', () => {
    const at = 100 + blindFor + 1;
    expect(
      acts([0, floor('ready')], [100, floor('pull')], [at, floor('pull'), 100], [at + 300, floor('pull'), 100]),
    ).toEqual(['start 0', `keep ${at}`]);
  });
  it('ends the film of one turn when another begins', () => {
    const other = 100 + afterPull;
    expect(
      acts(
        [0, floor('ready')],
        [50, floor('pull')],
        [100, floor('waiting', true, 'turn-2')],
        [other, floor('zero', true, 'turn-2')],
      ),
    ).toEqual(['start 0', `keep ${other}`]);
  });
});
