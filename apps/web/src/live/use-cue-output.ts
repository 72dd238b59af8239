import { useEffect, useRef, useState } from 'react';
import { deviceNow } from './clock.ts';
import { type Due, isDue } from './cue-due.ts';
import { flashLimit } from './flash-limit.ts';
import type { Heard } from './heard.ts';
import { onSound, playTone, soundReady, wakeSound } from './sound.ts';
import type { Sound } from './state.ts';
import { speak } from './voice.ts';

/** What a device may do with a cue, each as its people chose. */
export interface CueSwitches {
  readonly tone: boolean;
  readonly voice: boolean;
  readonly flash: boolean;
}

export interface OutputCue extends Omit<Due, 'expires'> {
  readonly sound: Sound;
  readonly words: string;
  /** The protocol wants it said, whatever this device is set to. */
  readonly spoken?: boolean | undefined;
}

export interface CueOutput<C> {
  /** What fills the screen now. */
  readonly flash: C | undefined;
  /** A tone would be heard. */
  readonly awake: boolean;
}

export interface CueOutputParts {
  readonly switches: CueSwitches;
  /** Of the rig: its pitch follows it. */
  readonly letter: string;
  /** A silent device speaks so many ms after it showed the flash, so that one that sounds comes first. */
  readonly silentAfter: number;
  readonly flashFor: number;
  readonly stationNow: () => number | undefined;
  readonly heard: (cue: string, heard: Heard) => void;
}

/**
 * Sounds, says and flashes what is due, and tells the station when it was really heard: the tone with the delay of its output, else
 * the start of the voice, else the frame in which the flash was seen.
 */
export function useCueOutput<C extends OutputCue>(cue: C | undefined, parts: CueOutputParts): CueOutput<C> {
  const latest = useRef(parts);
  latest.current = parts;
  const last = useRef<string>(undefined);
  const limit = useRef(flashLimit());
  const [flash, setFlash] = useState<C>();
  const awake = useAwake();
  useEffect(() => {
    const { switches, letter, silentAfter, flashFor, stationNow, heard } = latest.current;
    if (cue === undefined || !isDue({ ...cue, expires: 1000 }, last.current, stationNow())) return;
    last.current = cue.id;
    // Only the cue itself is waited for; counting has no time that matters.
    const timed = cue.sound === 'go';
    let told = false;
    const tell = (one: Heard) => {
      if (!timed || told) return;
      told = true;
      heard(cue.id, one);
    };
    const tone = switches.tone ? playTone(cue.sound, letter) : undefined;
    if (tone !== undefined) tell(tone);
    if ((switches.voice || cue.spoken === true) && !speak(cue.words, tell) && tone === undefined) {
      const instead = playTone(cue.sound, letter);
      if (instead !== undefined) tell(instead);
    }
    if (!switches.flash || !limit.current(deviceNow(), cue.sound === 'go')) return;
    setFlash(cue);
    let late: ReturnType<typeof setTimeout> | undefined;
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        const seen: Heard = { at: deviceNow(), way: 'flash', delay: 0, delayFrom: 'unknown' };
        late = setTimeout(() => tell(seen), silentAfter);
      }),
    );
    const timer = setTimeout(() => setFlash(undefined), flashFor);
    return () => {
      clearTimeout(timer);
      clearTimeout(late);
      setFlash(undefined);
    };
  }, [cue]);
  return { flash, awake };
}

/** Wakes the sound with the first touch or key, and follows whether it is awake. */
function useAwake(): boolean {
  const [awake, setAwake] = useState(soundReady);
  useEffect(() => {
    let stop = () => {};
    const follow = () => {
      stop();
      stop = onSound(() => setAwake(soundReady()));
      setAwake(soundReady());
    };
    const wake = () => {
      wakeSound();
      follow();
    };
    follow();
    addEventListener('pointerdown', wake);
    addEventListener('keydown', wake);
    return () => {
      stop();
      removeEventListener('pointerdown', wake);
      removeEventListener('keydown', wake);
    };
  }, []);
  return awake;
}
