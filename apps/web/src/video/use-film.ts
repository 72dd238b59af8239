import type { LabId } from '@sthene/contract';
import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import { FilmStore } from './film-store.ts';

/** A camera at a rig for as long as the part of the screen that shows it is there. */
export function useFilm(lab: LabId, rig: string) {
  const [store] = useState(() => new FilmStore(lab, rig));
  const state = useSyncExternalStore(store.listen, store.current);
  const picture = useRef<HTMLVideoElement>(null);
  useEffect(() => store.start(), [store]);
  useEffect(() => {
    if (picture.current !== null) void store.openCamera(picture.current);
  }, [store]);
  const unsafe = state.upload.waiting > 0 || state.under !== undefined;
  useEffect(() => {
    if (!unsafe) return;
    const warn = (event: BeforeUnloadEvent) => event.preventDefault();
    addEventListener('beforeunload', warn);
    return () => removeEventListener('beforeunload', warn);
  }, [unsafe]);
  const again = () => {
    if (picture.current !== null) void store.openCamera(picture.current);
  };
  return { state, picture, again, retry: () => store.retry() };
}
