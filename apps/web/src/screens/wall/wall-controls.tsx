import { useEffect, useState } from 'react';
import { liveWords } from '../../words/live.ts';

const { wallWords: words } = liveWords;

/** How long the controls stand after the last touch, key or move of a mouse, ms. */
const standFor = 5000;

/**
 * The one thing to set at a wall. Nothing of it is seen until somebody touches the wall, moves a mouse or presses a key; it goes
 * again by itself, and no wall ever waits for it.
 */
export function WallControls({ sound, onSound }: { sound: boolean; onSound: (on: boolean) => void }) {
  const shown = useStirred();
  return (
    <p className="wall-controls" data-shown={shown}>
      <button type="button" className="button" role="switch" aria-checked={sound} onClick={() => onSound(!sound)}>
        {words.sound}: {sound ? liveWords.on : liveWords.off}
      </button>
    </p>
  );
}

/** True for a while after somebody was at this screen. */
function useStirred(): boolean {
  const [stirred, setStirred] = useState(false);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const stir = () => {
      setStirred(true);
      clearTimeout(timer);
      timer = setTimeout(() => setStirred(false), standFor);
    };
    const kinds = ['pointermove', 'pointerdown', 'keydown'] as const;
    for (const kind of kinds) addEventListener(kind, stir);
    return () => {
      clearTimeout(timer);
      for (const kind of kinds) removeEventListener(kind, stir);
    };
  }, []);
  return stirred;
}
