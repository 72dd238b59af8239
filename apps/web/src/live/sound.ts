import type { Cue } from '@sthene/contract';
import { deviceNow } from './clock.ts';
import { type Heard, heardAt } from './heard.ts';
import { pitchOf, tones } from './tones.ts';

let context: AudioContext | undefined;

/** Wakes the sound; browsers only allow that after a touch or a key. */
export function wakeSound(): void {
  context ??= new AudioContext({ latencyHint: 'interactive' });
  if (context.state !== 'running') void context.resume();
}

/** True when a tone would be heard now. */
export const soundReady = (): boolean => context?.state === 'running';

/** Calls back when sound wakes or falls asleep; returns the way to stop. */
export function onSound(listener: () => void): () => void {
  const here = context;
  here?.addEventListener('statechange', listener);
  return () => here?.removeEventListener('statechange', listener);
}

/**
 * Plays a tone as soon as the output takes it.
 *
 * @param letter of the rig: each has a pitch of its own
 * @returns when it leaves the loudspeaker; undefined when nothing sounds
 */
export function playTone(sound: Cue['sound'], letter: string): Heard | undefined {
  if (context === undefined || context.state !== 'running') return undefined;
  const { seconds, level } = tones[sound];
  const start = context.currentTime + context.baseLatency;
  const gain = context.createGain();
  gain.gain.setValueAtTime(0.001, start);
  gain.gain.exponentialRampToValueAtTime(level, start + 0.003);
  gain.gain.setValueAtTime(level, start + seconds - 0.03);
  gain.gain.exponentialRampToValueAtTime(0.001, start + seconds);
  gain.connect(context.destination);
  const wave = context.createOscillator();
  wave.type = 'square';
  wave.frequency.value = pitchOf(sound, letter);
  wave.connect(gain);
  wave.start(start);
  wave.stop(start + seconds);
  const stamp = context.getOutputTimestamp?.();
  const { contextTime = 0, performanceTime = 0 } = stamp ?? {};
  const { currentTime, outputLatency, baseLatency } = context;
  const output = { currentTime, outputLatency, baseLatency, stamp: { contextTime, performanceTime } };
  return { way: 'tone', ...heardAt(start, output, deviceNow()) };
}
