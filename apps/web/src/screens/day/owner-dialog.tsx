import type { Day, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { useChangeOwner } from '../../data/days.ts';
import { peopleQuery } from '../../data/imports.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { personName } from '../import/who-name.ts';

interface OwnerProps {
  readonly lab: LabId;
  readonly day: Pick<Day, 'id' | 'entries'>;
  readonly trial: string;
  /** The person it is kept under now. */
  readonly from: string;
  onClose(): void;
}

/** Gives an effort to the athlete who really did it, with a reason. */
export function OwnerDialog({ lab, day, trial, from, onClose }: OwnerProps) {
  const t = dayWords.efforts;
  const { data: people = [], isLoadingError, error, refetch } = useQuery(peopleQuery(lab));
  const change = useChangeOwner(lab, day.id);
  const here = new Set(day.entries.map(({ person: one }) => one.id));
  const option = (one: (typeof people)[number]) => (
    <option key={one.id} value={one.id}>
      {personName(one)} ({one.code})
    </option>
  );
  const others = people.filter((one) => one.id !== from);
  const by = useSigned();
  const say = useSay();
  const [person, setPerson] = useState('');
  const [reason, setReason] = useState('');
  const [tried, setTried] = useState(false);
  const id = useId();
  const missing = !by ? dayWords.sign.needed : person === '' || reason.trim() === '' ? t.needs : '';
  const chosen = people.find((one) => one.id === person);
  return (
    <Dialog title={t.wrongTitle} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          setTried(true);
          if (missing || !chosen) return;
          change.mutate(
            { trial, person, reason: reason.trim(), by },
            {
              onSuccess: () => {
                say(t.given(personName(chosen)));
                onClose();
              },
            },
          );
        }}
      >
        <p className="soft">{t.wrongHelp}</p>
        <label htmlFor={`${id}who`}>{t.person}</label>
        <select id={`${id}who`} value={person} onChange={(event) => setPerson(event.target.value)}>
          <option value="">{t.choose}</option>
          <optgroup label={t.onDay}>{others.filter(({ id: one }) => here.has(one)).map(option)}</optgroup>
          <optgroup label={t.notOnDay}>{others.filter(({ id: one }) => !here.has(one)).map(option)}</optgroup>
        </select>
        <label htmlFor={`${id}why`}>{t.reason}</label>
        <textarea id={`${id}why`} value={reason} maxLength={500} onChange={(event) => setReason(event.target.value)} />
        {tried && missing && (
          <p className="field-error small" role="alert">
            {missing}
          </p>
        )}
        {isLoadingError && <ProblemCard error={error} onRetry={() => void refetch()} />}
        {change.isError && <ProblemCard error={change.error} />}
        <div className="dialog-acts">
          <button type="submit" className="button main" disabled={change.isPending}>
            {t.give}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {dayWords.cancel}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
