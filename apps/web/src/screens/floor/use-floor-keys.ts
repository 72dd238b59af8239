import { useEffect, useRef } from 'react';
import { readPreference } from '../../data/preferences.ts';

export interface FloorKeys {
  readonly main: () => void;
  readonly stop: () => void;
  readonly letters: Readonly<Record<string, () => void>>;
}

/** What a key press means on the Floor; undefined when it is somebody else's. */
export function floorKey(
  event: Pick<KeyboardEvent, 'key' | 'repeat' | 'ctrlKey' | 'metaKey' | 'altKey'>,
  focus: 'page' | 'control' | 'typing' | 'dialog',
  lettersOn: boolean,
): 'main' | 'stop' | { readonly letter: string } | undefined {
  const { key, repeat, ctrlKey, metaKey, altKey } = event;
  if (ctrlKey || metaKey || altKey) return undefined;
  // Stopping works from everywhere but a dialog, which Escape closes; the dialog's own opening has already stopped.
  if (key === 'Escape') return focus === 'dialog' ? undefined : 'stop';
  if (repeat || focus === 'dialog' || focus === 'typing') return undefined;
  if (key === 'PageDown') return 'main';
  // Space belongs to the button that has the focus.
  if (key === ' ') return focus === 'control' ? undefined : 'main';
  return lettersOn && key.length === 1 ? { letter: key.toLowerCase() } : undefined;
}

/** Keyboard and presenter clicker, for the whole page. */
export function useFloorKeys(keys: FloorKeys): void {
  const latest = useRef(keys);
  latest.current = keys;
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const meaning = floorKey(event, focusOf(event.target), readPreference('letter-keys') !== 'off');
      if (meaning === undefined) return;
      const { main, stop, letters } = latest.current;
      const act = meaning === 'main' ? main : meaning === 'stop' ? stop : letters[meaning.letter];
      if (act === undefined) return;
      event.preventDefault();
      act();
    };
    // After a touch the button would keep the focus, and the next Space of a clicker would press it once more.
    const release = (event: PointerEvent) => {
      if (event.target instanceof Element && event.target.closest('button') && !event.target.closest('dialog, .menu'))
        setTimeout(() => (document.activeElement as HTMLElement | null)?.blur(), 0);
    };
    addEventListener('keydown', press);
    addEventListener('pointerup', release);
    return () => {
      removeEventListener('keydown', press);
      removeEventListener('pointerup', release);
    };
  }, []);
}

function focusOf(target: EventTarget | null): 'page' | 'control' | 'typing' | 'dialog' {
  if (!(target instanceof Element)) return 'page';
  if (target.closest('dialog')) return 'dialog';
  if (target.closest('input:not([type="checkbox"], [type="radio"]), textarea, select')) return 'typing';
  return target.closest('button, a, input, summary') ? 'control' : 'page';
}
