import { deviceNow } from './clock.ts';
import type { Heard } from './heard.ts';

/** A voice that speaks without a network; undefined where this device has none. */
export function offlineVoice(language = 'en'): SpeechSynthesisVoice | undefined {
  if (!('speechSynthesis' in window)) return undefined;
  return speechSynthesis.getVoices().find(({ localService, lang }) => localService && lang.startsWith(language));
}

/**
 * Says words with a voice of this device. A voice has a delay that no browser tells: its `start` event is taken as the time, and
 * marked as not known.
 *
 * @returns false where there is no voice, so that a tone can take its place
 */
export function speak(words: string, started?: (heard: Heard) => void): boolean {
  const voice = offlineVoice();
  if (voice === undefined) return false;
  speechSynthesis.cancel();
  const said = new SpeechSynthesisUtterance(words);
  said.voice = voice;
  said.lang = voice.lang;
  said.rate = 1.15;
  const asked = deviceNow();
  said.onstart = () => {
    const at = deviceNow();
    started?.({ at, way: 'voice', delay: at - asked, delayFrom: 'unknown' });
  };
  speechSynthesis.speak(said);
  return true;
}
