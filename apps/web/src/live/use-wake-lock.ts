import { useEffect, useState } from 'react';

/** `held`: the screen stays on. `off`: not asked for. `unavailable`: this browser or address cannot. `refused`: it would not now. */
export type WakeState = 'off' | 'held' | 'unavailable' | 'refused';

/** Keeps the screen on while wanted. A browser lets go of it when the page is hidden, so it is asked for again on return. */
export function useWakeLock(wanted: boolean): WakeState {
  const [state, setState] = useState<WakeState>('off');
  useEffect(() => {
    if (!wanted) {
      setState('off');
      return;
    }
    const lock = (navigator as { wakeLock?: WakeLock }).wakeLock;
    if (lock === undefined) {
      setState('unavailable');
      return;
    }
    let sentinel: WakeLockSentinel | undefined;
    let gone = false;
    const ask = async () => {
      if (document.visibilityState !== 'visible') return;
      try {
        const got = await lock.request('screen');
        if (gone) {
          await got.release();
          return;
        }
        sentinel = got;
        got.addEventListener('release', () => {
          // The page was hidden, or the battery runs low.
          if (!gone && document.visibilityState === 'visible') setState('refused');
        });
        setState('held');
      } catch {
        if (!gone) setState('refused');
      }
    };
    const again = () => void ask();
    void ask();
    document.addEventListener('visibilitychange', again);
    return () => {
      gone = true;
      document.removeEventListener('visibilitychange', again);
      void sentinel?.release();
    };
  }, [wanted]);
  return state;
}
