import type { Day, DayEntry } from '@sthene/contract';
import { useEffect, useRef, useState } from 'react';
import { deviceNow, type RigLive } from '../../live/index.ts';
import { liveWords as words } from '../../words/live.ts';
import { inSentence } from '../../words/title.ts';
import { paceOf } from '../day/pace.ts';
import { restLeft } from '../day/standing.ts';
import { testTitle } from '../trial/test-title.ts';
import { clockText } from './numbers.ts';

interface RunningOrderProps {
  readonly day: Day | undefined;
  /** Device clock when the day was told, ms. */
  readonly dayAt: number;
  readonly rig: string;
  readonly rigs: Readonly<Record<string, RigLive>>;
  readonly onChoose: () => void;
}

/** Who is on the rig, who comes next, who rests and for how long. A touch opens the choice of athlete. */
export function RunningOrder({ day, dayAt, rig, rigs, onChoose }: RunningOrderProps) {
  const now = useSeconds();
  const next = day?.next.find((one) => one.rig === rig)?.entry;
  const here = day?.entries.find(({ state, rig: at }) => state === 'on-rig' && at === rig)?.id;
  const views = Object.values(rigs).flatMap(({ view }) => (view === undefined ? [] : [view]));
  const several = (day?.tests.length ?? 0) > 1;
  const pace = day === undefined ? 1 : paceOf(day, views);
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    // Whoever is on the rig stays in sight; the strip alone moves, never the page.
    const item = here === undefined ? null : list.current?.querySelector<HTMLElement>('[data-here="true"]');
    if (item && list.current) list.current.scrollLeft = item.offsetLeft - list.current.offsetLeft - 8;
  }, [here]);
  return (
    <ol className="floor-order" aria-label={words.order} ref={list}>
      {(day?.entries ?? [])
        // In a battery somebody stands there once, with the test that is due.
        .filter(({ state, after }) => state !== 'done' && state !== 'left' && after === undefined)
        .map((entry) => {
          const { id, person, state } = entry;
          const isHere = id === here;
          return (
            <li key={id} data-here={isHere} data-state={state} aria-current={isHere ? 'true' : undefined}>
              <button type="button" onClick={onChoose}>
                <b>{person.name}</b>
                <span className="small">
                  {id === next && !isHere && <em>{words.next} </em>}
                  {several && <span className="soft">{testTitle(entry.test)}, </span>}
                  {isHere
                    ? several
                      ? inSentence(entry.next)
                      : entry.next
                    : (elsewhere(entry, rigs) ?? standingText(entry, dayAt, now, pace))}
                </span>
              </button>
            </li>
          );
        })}
    </ol>
  );
}

/** On which other rig somebody is. */
function elsewhere({ state, rig }: DayEntry, rigs: RunningOrderProps['rigs']): string | undefined {
  const letter = rigs[rig ?? '']?.view?.letter;
  return state === 'on-rig' && letter !== undefined ? words.entryOnRig(letter) : undefined;
}

/** Counted on from what the station told: no clock on a wall is asked, and virtual plates may rest faster. */
function standingText({ rest, state }: DayEntry, dayAt: number, now: number, pace: number): string {
  if (rest === undefined) return words.entry[state];
  const left = restLeft(rest.left, dayAt, now, pace);
  if (left > 0) return words.restLeft(clockText(left));
  const stale = (Date.parse(rest.staleAt) - Date.parse(rest.readyAt)) / 1000;
  return -left > stale ? words.restStale : words.rested;
}

/** The clock of this device, once a second. */
function useSeconds(): number {
  const [now, setNow] = useState(deviceNow);
  useEffect(() => {
    const timer = setInterval(() => setNow(deviceNow()), 1000);
    return () => clearInterval(timer);
  }, []);
  return now;
}
