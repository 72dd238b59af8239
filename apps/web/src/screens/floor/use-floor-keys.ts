import { useEffect, useRef } from 'react';
import { readPreference } from '../../data/preferences.ts';
import { actOf, isPresenterKey, type KeyAct, type KeyMap, keysFrom } from './keys.ts';

export type FloorFocus = 'page' | 'control' | 'typing' | 'dialog';

/** What decides about a key besides the key. */
export interface KeyMoment {
  readonly focus: FloorFocus;
  readonly lettersOn: boolean;
  readonly keys: KeyMap;
  /** A cue would sound by itself: any key of a presenter stops it. */
  readonly cueArmed: boolean;
  /** A count or a pull goes on. */
  readonly running: boolean;
}

/** What a key press means on the Floor; undefined when it is somebody else's. */
export function floorKey(
  event: Pick<KeyboardEvent, 'key' | 'repeat' | 'ctrlKey' | 'metaKey' | 'altKey'>,
  { focus, lettersOn, keys, cueArmed, running }: KeyMoment,
): KeyAct | undefined {
  const { key, repeat, ctrlKey, metaKey, altKey } = event;
  if (ctrlKey || metaKey || altKey) return undefined;
  const act = actOf(keys, key);
  // Stopping works from everywhere but a dialog, which Escape closes; the dialog's own opening has already stopped.
  if (key === 'Escape') return focus === 'dialog' ? undefined : 'stop';
  const over = focus === 'dialog' || focus === 'typing';
  if (over && (cueArmed || running) && key.startsWith('Page')) return 'stop';
  if (cueArmed && !over && isPresenterKey(key)) return 'stop';
  if (repeat || over) return undefined;
  // Space and Enter belong to the button that has the focus.
  if ((key === ' ' || key === 'Enter') && focus === 'control') return undefined;
  if (!lettersOn && /^[a-z]$/i.test(key)) return undefined;
  return act;
}

/** Keyboard and presenter, for the whole page. */
export function useFloorKeys(
  acts: Readonly<Record<KeyAct, () => void>>,
  moment: Pick<KeyMoment, 'cueArmed' | 'running'>,
): void {
  const latest = useRef({ acts, moment });
  latest.current = { acts, moment };
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const act = floorKey(event, {
        focus: focusOf(event.target),
        lettersOn: readPreference('letter-keys') !== 'off',
        keys: keysFrom(readPreference('floor-keys')),
        ...latest.current.moment,
      });
      if (act === undefined) return;
      event.preventDefault();
      latest.current.acts[act]();
    };
    // After a touch the button would keep the focus, and the next Space of a clicker would press it once more. Before the button acts,
    // because a dialog it opens takes the focus, and gives it back to where it was.
    const release = (event: MouseEvent) => {
      const button = event.target instanceof Element ? event.target.closest('button') : null;
      if (event.detail > 0 && button && !button.closest('dialog, .menu')) button.blur();
    };
    addEventListener('keydown', press);
    addEventListener('click', release, { capture: true });
    return () => {
      removeEventListener('keydown', press);
      removeEventListener('click', release, { capture: true });
    };
  }, []);
}

function focusOf(target: EventTarget | null): FloorFocus {
  // A touch beside the fields of a dialog leaves the focus nowhere; the keys are the dialog's all the same.
  if (document.querySelector('dialog[open]') !== null) return 'dialog';
  if (!(target instanceof Element)) return 'page';
  if (target.closest('input:not([type="checkbox"], [type="radio"]), textarea, select')) return 'typing';
  return target.closest('button, a, input, summary') ? 'control' : 'page';
}
