import { type AthleteNote, type AthleteView, followRoutes, type LabId } from '@sthene/contract';
import { metricFacts } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { useMay } from '../../data/access.ts';
import { notesQuery } from '../../data/follow.ts';
import { whenText } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { followWords } from '../../words/follow.ts';
import { valueText } from '../athletes/values.ts';
import { NoteDialog } from './note-dialog.tsx';
import { TakeBackDialog } from './take-back-dialog.tsx';

/** What is written down of an athlete: remarks, injuries as they were told, targets, positions. */
export function NotesPart({ lab, view }: { lab: LabId; view: AthleteView }) {
  const t = followWords.notes;
  const may = useMay();
  const reads = may(followRoutes.athleteNotes);
  const notes = useQuery({ ...notesQuery(lab, view.person.id), enabled: reads });
  const [adding, setAdding] = useState(false);
  const [back, setBack] = useState<AthleteNote>();
  if (!reads) return null;
  const hurt = notes.data?.some(({ kind }) => kind === 'injury') === true;
  return (
    <section className="notes-part" aria-labelledby="follow-notes">
      <h2 id="follow-notes">{t.title}</h2>
      {notes.isError && <ProblemCard error={notes.error} onRetry={() => void notes.refetch()} />}
      {notes.data?.length === 0 && <p className="soft">{t.none}</p>}
      {notes.data && notes.data.length > 0 && (
        <ul className="notes-list">
          {notes.data.toReversed().map((note) => (
            <li key={note.id}>
              <span className="notes-kind">{t.kind[note.kind]}</span>
              <span className="soft">{whenText(`${note.from}T12:00:00.000Z`, false)}</span>
              <span>{wordsOf(note)}</span>
              {may(followRoutes.takeBackAthleteNote) && (
                <button type="button" className="button quiet no-print" onClick={() => setBack(note)}>
                  {t.back}
                </button>
              )}
            </li>
          ))}
        </ul>
      )}
      <div className="acts no-print">
        {may(followRoutes.addAthleteNote) && (
          <button type="button" className="button" onClick={() => setAdding(true)}>
            {t.add}
          </button>
        )}
        {hurt && (
          <Link className="button quiet" to={`/${lab}/athletes/${view.person.id}/return`}>
            {followWords.return.link}
          </Link>
        )}
      </div>
      {adding && <NoteDialog lab={lab} view={view} onClose={() => setAdding(false)} />}
      {back && <TakeBackDialog lab={lab} note={back} says={wordsOf(back)} onClose={() => setBack(undefined)} />}
    </section>
  );
}

function wordsOf({ limb, text, target, until }: AthleteNote): string {
  const t = followWords.notes;
  const day = until === undefined ? '' : whenText(`${until}T12:00:00.000Z`, false);
  const parts = [
    ...(limb === undefined ? [] : [t.form.limbs[limb]]),
    ...(target === undefined
      ? []
      : [
          `${metricFacts.get(target.metric)?.title ?? target.metric}: ${t.target(valueText(target.value, target.unit), day)}`,
        ]),
    ...(text === '' ? [] : [text]),
  ];
  return parts.join(', ');
}
