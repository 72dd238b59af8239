import type { LabId, SourceListening } from '@sthene/contract';
import { useEffect, useRef, useState } from 'react';
import { listenSource, stopListening } from '../../../data/rigs.ts';

/** Between an answer and the next question, ms: short enough that numbers move. */
const pause = 400;

export interface Heard {
  /** What came, at the last answer. */
  readonly view: SourceListening | undefined;
  /** Why the last question was refused. */
  readonly error: unknown;
}

const nothing: Heard = { view: undefined, error: undefined };

/** Listens to a source as it is described just now, for as long as `going`; lets go of the device at the end and on leaving. */
export function useListening(lab: LabId, document: unknown, going: boolean): Heard {
  const [heard, setHeard] = useState<Heard>(nothing);
  const newest = useRef(document);
  newest.current = document;
  useEffect(() => {
    if (!going) return;
    const id = crypto.randomUUID();
    let timer: ReturnType<typeof setTimeout> | undefined;
    let over = false;
    setHeard(nothing);
    const ask = async () => {
      const next: Heard = await listenSource(lab, id, newest.current).then(
        (view) => ({ view, error: undefined }),
        (error: unknown) => ({ view: undefined, error }),
      );
      if (over) return void stopListening(lab, id);
      setHeard((before) => (next.error === undefined ? next : { view: before.view, error: next.error }));
      timer = setTimeout(() => void ask(), next.error === undefined ? pause : 3 * pause);
    };
    void ask();
    const leave = () => void stopListening(lab, id);
    window.addEventListener('pagehide', leave);
    return () => {
      over = true;
      clearTimeout(timer);
      window.removeEventListener('pagehide', leave);
      leave();
    };
  }, [lab, going]);
  return heard;
}
