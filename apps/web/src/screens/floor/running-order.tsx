import type { Day } from '@sthene/contract';
import { useEffect, useState } from 'react';
import { liveWords as words } from '../../words/live.ts';
import { clockText } from './numbers.ts';

/** Who is on the rig, who comes next, who rests and for how long. */
export function RunningOrder({ day, rig }: { day: Day | undefined; rig: string }) {
  const now = useSeconds();
  const next = day?.next.find((one) => one.rig === rig)?.entry;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: the strip scrolls sideways, so the keyboard must reach it
    <ol className="running-order" aria-label={words.order} tabIndex={0}>
      {(day?.entries ?? [])
        .filter(({ state }) => state !== 'done' && state !== 'left')
        .map(({ id, person, state, rest, next: what, rig: at }) => {
          const left = rest === undefined ? 0 : (Date.parse(rest.readyAt) - now) / 1000;
          const here = state === 'on-rig' && at === rig;
          return (
            <li key={id} data-here={here} data-state={state} aria-current={here ? 'true' : undefined}>
              <b>{person.name}</b>
              <span className="small">
                {id === next && !here && <em>{words.next} </em>}
                {left > 0 && !here ? words.restLeft(clockText(left)) : here ? what : words.entry[state]}
              </span>
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
