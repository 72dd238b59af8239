import { useEffect, useRef } from 'react';
import { readPreference } from '../../data/preferences.ts';

interface Acts {
  step(by: 1 | -1): void;
  toggle(): void;
}

const writable = (target: EventTarget | null) =>
  target instanceof HTMLElement && target.matches('input:not([type=radio], [type=checkbox]), textarea, select');

/** Comma and full stop step through the frames, V plays; like all single keys of this screen they can be switched off. */
export function useFilmKeys(acts: Acts, quiet: boolean): void {
  const now = useRef({ acts, quiet });
  now.current = { acts, quiet };
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const { acts, quiet } = now.current;
      if (quiet || event.defaultPrevented || writable(event.target) || readPreference('letter-keys') === 'off') return;
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.key === ',') acts.step(-1);
      else if (event.key === '.') acts.step(1);
      else if (event.key.toLowerCase() === 'v') acts.toggle();
      else return;
      event.preventDefault();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
}
