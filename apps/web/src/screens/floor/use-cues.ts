import { useEffect, useRef, useState } from 'react';
import {
  deviceNow,
  isDue,
  type LiveStore,
  playTone,
  type RigLive,
  soundReady,
  speak,
  wakeSound,
} from '../../live/index.ts';
import { useSwitch } from './screen-settings.tsx';

/** How long the flash of a cue stands, ms. Counts are a second apart, so it stays far below three flashes a second. */
const flashFor = 450;

/**
 * Sounds, says and flashes what is due, and tells the station when it was really heard: the tone with the latency of the output, or the
 * frame of the flash where nothing can sound. Only the device with the controls speaks for a silent cue.
 */
export function useCues(store: LiveStore, cue: RigLive['cue']): { flash: RigLive['cue']; sounding: boolean } {
  const [sound] = useSwitch('cue-sound', true);
  const [voice] = useSwitch('cue-voice', false);
  const [flashOn] = useSwitch('cue-flash', true);
  const last = useRef<string>(undefined);
  const [flash, setFlash] = useState<RigLive['cue']>(undefined);
  const [awake, setAwake] = useState(soundReady);
  useEffect(() => {
    const wake = () => {
      wakeSound();
      setTimeout(() => setAwake(soundReady()), 100);
    };
    addEventListener('pointerdown', wake);
    addEventListener('keydown', wake);
    return () => {
      removeEventListener('pointerdown', wake);
      removeEventListener('keydown', wake);
    };
  }, []);
  useEffect(() => {
    if (cue === undefined || !isDue(cue, last.current, store.link.stationNow)) return;
    last.current = cue.id;
    const heard = sound ? playTone(cue.sound) : undefined;
    if (voice || cue.spoken === true) speak(cue.words);
    if (heard !== undefined) store.sounded(cue.id, heard);
    if (!flashOn) return;
    setFlash(cue);
    if (heard === undefined && store.holdsControls)
      requestAnimationFrame(() => requestAnimationFrame(() => store.sounded(cue.id, deviceNow())));
    const timer = setTimeout(() => setFlash(undefined), flashFor);
    return () => {
      clearTimeout(timer);
      setFlash(undefined);
    };
  }, [cue, sound, voice, flashOn, store]);
  return { flash, sounding: sound && awake };
}
