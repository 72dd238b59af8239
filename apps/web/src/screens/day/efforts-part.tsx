import type { Day, DayEntry, LabId, PlannedEffort } from '@sthene/contract';
import { useState } from 'react';
import { Link } from 'react-router';
import { quantityText } from '../../number/format.ts';
import { StateMark } from '../../parts/state-mark.tsx';
import { dayWords } from '../../words/day.ts';
import { OwnerDialog } from './owner-dialog.tsx';

interface EffortsProps {
  readonly lab: LabId;
  readonly day: Day;
  readonly entry: DayEntry;
  onLeaveOut(remaining: PlannedEffort[]): void;
}

/** An effort of the plan in words. */
export function effortWords({ kind, share }: PlannedEffort): string {
  const t = dayWords.efforts;
  return share === undefined ? t.kinds[kind] : `${t.kinds[kind]} ${t.share(share)}`;
}

/** Efforts done, each with its trial and the way to give it to someone else; efforts to come, each can be left out. */
export function EffortsPart({ lab, day, entry, onLeaveOut }: EffortsProps) {
  const t = dayWords.efforts;
  const [moving, setMoving] = useState<string>();
  return (
    <>
      <section className="detail">
        <h3>{t.title}</h3>
        {entry.efforts.length === 0 && <p className="small soft">{t.none}</p>}
        <ol className="effort-list">
          {entry.efforts.map((one, i) => (
            <li key={one.trial}>
              <Link to={`/${lab}/trials/${one.trial}`}>
                {dayWords.order.trial(i + 1)}, {t.kinds[one.kind].toLowerCase()}
              </Link>
              <StateMark state={one.state} />
              {one.peakForce !== undefined && (
                <span className="number">{quantityText(one.peakForce, one.unit, { sampleRate: 1000, noise: 1 })}</span>
              )}
              <button
                type="button"
                className="button quiet"
                aria-label={`${dayWords.order.trial(i + 1)}: ${t.wrong}`}
                onClick={() => setMoving(one.trial)}
              >
                {t.wrong}
              </button>
            </li>
          ))}
        </ol>
        {moving !== undefined && (
          <OwnerDialog lab={lab} day={day} trial={moving} from={entry.person.id} onClose={() => setMoving(undefined)} />
        )}
      </section>
      <section className="detail">
        <h3>{dayWords.remaining.title}</h3>
        {entry.remaining.length === 0 && <p className="small soft">{dayWords.remaining.nothing}</p>}
        <ol className="effort-list">
          {entry.remaining.map((one, i) => (
            <li key={i}>
              {effortWords(one)}
              <button
                type="button"
                className="button quiet"
                aria-label={dayWords.remaining.leaveOut(`${i + 1}, ${effortWords(one)}`)}
                onClick={() => onLeaveOut(entry.remaining.filter((_, place) => place !== i))}
              >
                {dayWords.remaining.out}
              </button>
            </li>
          ))}
        </ol>
      </section>
    </>
  );
}
