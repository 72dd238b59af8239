import { useState } from 'react';
import type { EntryPart } from '../../data/days.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { EffortsPart } from './efforts-part.tsx';
import type { EntryRowProps } from './entry-row.tsx';
import { GatesPart } from './gates-part.tsx';
import { setupFieldsOf } from './protocol-of.ts';
import { ReadinessPart } from './readiness-part.tsx';
import { useRigLetter } from './rig-names.ts';
import { SetupPart } from './setup-part.tsx';

/** Everything about one athlete of the day. Each part is kept by itself. */
export function EntryDetails(props: EntryRowProps) {
  const { lab, day, entry, act, place, of } = props;
  const by = useSigned();
  const say = useSay();
  const change = (part: EntryPart) => {
    if (!by) return say(dayWords.sign.needed);
    act.mutate({ kind: 'change', entry: entry.id, part, by }, { onSuccess: () => say(dayWords.saved) });
  };
  return (
    <div className="entry-details">
      {act.isError && <ProblemCard error={act.error} />}
      <div className="detail-columns">
        <div className="detail-column">
          <ReadinessPart key={entry.readiness?.at ?? ''} entry={entry} onKeep={(readiness) => change({ readiness })} />
          <GatesPart lab={lab} day={day.id} entry={entry} />
        </div>
        <div className="detail-column">
          <SetupPart entry={entry} fields={setupFieldsOf(day, entry.test)} onKeep={(setup) => change({ setup })} />
          <EffortsPart lab={lab} day={day} entry={entry} onLeaveOut={(remaining) => change({ remaining })} />
          <StatePart {...props} change={change} />
          <div className="acts">
            <button type="button" className="button" disabled={place === 1} onClick={() => props.onMove(-1)}>
              <Icon name="left" size={14} /> {dayWords.order.earlier(entry.person.name)}
            </button>
            <button type="button" className="button" disabled={place === of} onClick={() => props.onMove(1)}>
              {dayWords.order.later(entry.person.name)} <Icon name="right" size={14} />
            </button>
          </div>
        </div>
      </div>
    </div>
  );
}

function StatePart({ lab, day, entry, act, change }: EntryRowProps & { change: (part: EntryPart) => void }) {
  const t = dayWords.state;
  const [notes, setNotes] = useState(entry.notes);
  const by = useSigned();
  const gone = entry.state === 'left' || entry.state === 'done';
  const free = entry.state !== 'on-rig';
  return (
    <section className="detail">
      <h3>{t.title}</h3>
      <div className="acts">
        {gone ? (
          <button type="button" className="button" onClick={() => change({ state: 'waiting' })}>
            {t.back}
          </button>
        ) : (
          free && (
            <>
              <button type="button" className="button" onClick={() => change({ state: 'warming-up' })}>
                {t.warm}
              </button>
              {entry.state === 'warming-up' && (
                <button type="button" className="button" onClick={() => change({ state: 'waiting' })}>
                  {t.wait}
                </button>
              )}
              <button type="button" className="button" onClick={() => change({ state: 'left' })}>
                {entry.efforts.length === 0 ? t.notHere : t.left}
              </button>
              <button type="button" className="button" onClick={() => change({ state: 'done' })}>
                {t.finish}
              </button>
            </>
          )
        )}
        {entry.efforts.length === 0 && free && (
          <button
            type="button"
            className="button quiet"
            disabled={!by}
            onClick={() => act.mutate({ kind: 'remove', entry: entry.id })}
          >
            {t.remove}
          </button>
        )}
      </div>
      {day.rigs.length > 1 && <RigChoice lab={lab} entry={entry} day={day} change={change} />}
      <label className="field">
        <span className="label">{t.notes}</span>
        <textarea
          rows={2}
          value={notes}
          maxLength={10_000}
          onChange={(event) => setNotes(event.target.value)}
          onBlur={() => {
            if (notes !== entry.notes) change({ notes });
          }}
        />
      </label>
    </section>
  );
}

function RigChoice({
  lab,
  entry,
  day,
  change,
}: Pick<EntryRowProps, 'lab' | 'entry' | 'day'> & { change: (part: EntryPart) => void }) {
  const letter = useRigLetter(lab);
  const t = dayWords.state;
  return (
    <label className="field">
      <span className="label">{t.rig}</span>
      <select value={entry.fixedRig ?? ''} onChange={(event) => change({ fixedRig: event.target.value || null })}>
        <option value="">{t.any}</option>
        {day.rigs.map((rig) => (
          <option key={rig} value={rig}>
            {letter(rig)}
          </option>
        ))}
      </select>
    </label>
  );
}
