import type { Cue } from '@sthene/contract';
import { deviceNow } from './clock.ts';

/** Pitch (Hz) and length (s) of each cue: the count is low and short, the cue itself high and long. */
const tones: Readonly<Record<Cue['sound'], readonly [number, number]>> = {
  three: [440, 0.12],
  two: [440, 0.12],
  one: [440, 0.12],
  go: [880, 0.5],
  relax: [330, 0.3],
  stop: [220, 0.6],
  attention: [550, 0.2],
};

let context: AudioContext | undefined;

/** Wakes the sound; browsers only allow that after a touch or a key. */
export function wakeSound(): void {
  context ??= new AudioContext({ latencyHint: 'interactive' });
  if (context.state === 'suspended') void context.resume();
}

/** True when a tone would be heard now. */
export const soundReady = (): boolean => context?.state === 'running';

/**
 * Plays a tone at once.
 *
 * @returns device clock at which it leaves the loudspeaker, ms: the output's own latency is included where the browser tells it;
 *   undefined when nothing sounds
 */
export function playTone(sound: Cue['sound']): number | undefined {
  if (context === undefined || context.state !== 'running') return undefined;
  const [pitch, seconds] = tones[sound];
  const start = context.currentTime;
  const gain = context.createGain();
  const wave = context.createOscillator();
  wave.type = 'square';
  wave.frequency.value = pitch;
  gain.gain.setValueAtTime(0.001, start);
  gain.gain.exponentialRampToValueAtTime(0.5, start + 0.004);
  gain.gain.setValueAtTime(0.5, start + seconds - 0.03);
  gain.gain.exponentialRampToValueAtTime(0.001, start + seconds);
  wave.connect(gain).connect(context.destination);
  wave.start(start);
  wave.stop(start + seconds);
  const latency = context.outputLatency || context.baseLatency || 0;
  return deviceNow() + latency * 1000;
}

/** Says words with the voice of the system; nothing where there is none. Its delay is unknown, so it never times a cue. */
export function speak(words: string): void {
  if (!('speechSynthesis' in window)) return;
  speechSynthesis.cancel();
  const said = new SpeechSynthesisUtterance(words);
  said.lang = 'en';
  said.rate = 1.1;
  speechSynthesis.speak(said);
}
