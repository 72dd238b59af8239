import type { Day } from '@sthene/contract';
import { useEffect, useRef, useState } from 'react';
import { liveWords as words } from '../../words/live.ts';
import { clockText } from './numbers.ts';

/** Who is on the rig, who comes next, who rests and for how long. A touch opens the choice of athlete. */
export function RunningOrder({ day, rig, onChoose }: { day: Day | undefined; rig: string; onChoose: () => void }) {
  const now = useSeconds();
  const next = day?.next.find((one) => one.rig === rig)?.entry;
  const here = day?.entries.find(({ state, rig: at }) => state === 'on-rig' && at === rig)?.id;
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    // Whoever is on the rig stays in sight; the strip alone moves, never the page.
    const item = here === undefined ? null : list.current?.querySelector<HTMLElement>('[data-here="true"]');
    if (item && list.current) list.current.scrollLeft = item.offsetLeft - list.current.offsetLeft - 8;
  }, [here]);
  return (
    <ol className="running-order" aria-label={words.order} ref={list}>
      {(day?.entries ?? [])
        .filter(({ state }) => state !== 'done' && state !== 'left')
        .map(({ id, person, state, rest, next: what, rig: at }) => {
          const left = rest === undefined ? 0 : (Date.parse(rest.readyAt) - now) / 1000;
          const isHere = state === 'on-rig' && at === rig;
          return (
            <li key={id} data-here={isHere} data-state={state} aria-current={isHere ? 'true' : undefined}>
              <button type="button" onClick={onChoose}>
                <b>{person.name}</b>
                <span className="small">
                  {id === next && !isHere && <em>{words.next} </em>}
                  {left > 0 && !isHere ? words.restLeft(clockText(left)) : isHere ? what : words.entry[state]}
                </span>
              </button>
            </li>
          );
        })}
    </ol>
  );
}

/** The wall clock, once a second. */
function useSeconds(): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  return now;
}
