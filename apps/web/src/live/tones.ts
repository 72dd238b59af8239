import type { Cue } from '@sthene/contract';

/** Pitch of rig A in Hz, length in s, loudness from 0 to 1: the count is low and short, the cue itself high, long and loud. */
export const tones: Readonly<
  Record<Cue['sound'], { readonly pitch: number; readonly seconds: number; readonly level: number }>
> = {
  three: { pitch: 440, seconds: 0.12, level: 0.6 },
  two: { pitch: 440, seconds: 0.12, level: 0.6 },
  one: { pitch: 440, seconds: 0.12, level: 0.6 },
  go: { pitch: 880, seconds: 0.5, level: 0.95 },
  relax: { pitch: 330, seconds: 0.3, level: 0.6 },
  stop: { pitch: 220, seconds: 0.6, level: 0.95 },
  attention: { pitch: 550, seconds: 0.2, level: 0.6 },
};

/** Steps from one rig to the next: a major third, so that two neighbours are not mistaken for one another. */
const third = 2 ** (4 / 12);
const rigsApart = 4;

/** Pitch of a sound at a rig, Hz: A as it is, B a third higher, C two; the fifth rig begins again. */
export function pitchOf(sound: Cue['sound'], letter: string): number {
  const step = Math.max(0, letter.charCodeAt(0) - 65) % rigsApart;
  return tones[sound].pitch * third ** (step || 0);
}
