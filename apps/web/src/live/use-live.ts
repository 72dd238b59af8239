import type { LabId } from '@sthene/contract';
import { useEffect, useState, useSyncExternalStore } from 'react';
import { LiveStore, WallStore } from './store.ts';

/** The live day of a lab for as long as the screen is open. */
export function useLive(lab: LabId) {
  const [store] = useState(() => new LiveStore(lab));
  useStarted(store.link);
  return { store, state: useSyncExternalStore(store.follow, store.current) };
}

/** The same for a wall. */
export function useWall(lab: LabId) {
  const [store] = useState(() => new WallStore(lab));
  useStarted(store.link);
  return { store, state: useSyncExternalStore(store.follow, store.current) };
}

function useStarted(link: { start(): void; stop(): void; retry(): void }): void {
  useEffect(() => {
    link.start();
    const again = () => link.retry();
    addEventListener('online', again);
    return () => {
      removeEventListener('online', again);
      link.stop();
    };
  }, [link]);
}
