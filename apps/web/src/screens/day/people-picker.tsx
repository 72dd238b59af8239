import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { peopleQuery } from '../../data/imports.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { dayWords } from '../../words/day.ts';
import { matching, personName } from '../import/who-name.ts';

interface PickerProps {
  readonly lab: LabId;
  readonly chosen: readonly string[];
  onChange(chosen: readonly string[]): void;
}

/** Athletes to tick; the place in which one was picked is shown and becomes the running order. */
export function PeoplePicker({ lab, chosen, onChange }: PickerProps) {
  const t = dayWords.plan;
  const people = useQuery(peopleQuery(lab));
  const [typed, setTyped] = useState('');
  const id = useId();
  if (people.isLoadingError) return <ProblemCard error={people.error} onRetry={() => void people.refetch()} />;
  if (people.data?.length === 0) return <p className="soft">{t.noPeople}</p>;
  return (
    <fieldset className="picker">
      <legend>{t.who}</legend>
      <label className="unseen" htmlFor={`${id}find`}>
        {t.find}
      </label>
      <input
        id={`${id}find`}
        type="search"
        value={typed}
        placeholder={t.find}
        onChange={(event) => setTyped(event.target.value)}
      />
      <ul className="picker-list">
        {matching(people.data ?? [], typed).map((person) => {
          const place = chosen.indexOf(person.id);
          return (
            <li key={person.id}>
              <label className="check-line">
                <input
                  type="checkbox"
                  checked={place >= 0}
                  onChange={(event) =>
                    onChange(event.target.checked ? [...chosen, person.id] : chosen.filter((one) => one !== person.id))
                  }
                />
                <span>{personName(person)}</span>
                <span className="small soft">{person.code}</span>
                {place >= 0 && <b className="number picker-place">{place + 1}</b>}
              </label>
            </li>
          );
        })}
      </ul>
      <p className="small soft" role="status">
        {t.chosen(chosen.length)}
      </p>
    </fieldset>
  );
}
