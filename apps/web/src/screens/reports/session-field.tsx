import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useDeferredValue, useId, useState } from 'react';
import { sessionQuery } from '../../data/queries.ts';
import { sessionPagesQuery } from '../../data/session-pages.ts';
import { whenText } from '../../number/when.ts';
import { reportWords as t } from '../../words/reports.ts';
import { Choice } from '../athletes/choice.tsx';
import { sessionTitle } from '../trial/test-title.ts';

const shown = 100;

interface SessionFieldProps {
  readonly lab: LabId;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** A session out of many: a search narrows the newest hundred; the one that is chosen stays in the list. */
export function SessionField({ lab, value, onChange }: SessionFieldProps) {
  const [search, setSearch] = useState('');
  const text = useDeferredValue(search.trim());
  const id = useId();
  const { data } = useQuery(sessionPagesQuery(lab, { limit: shown, ...(text ? { text } : {}) }));
  const rows = data?.rows ?? [];
  const listed = rows.some((one) => one.id === value);
  const own = useQuery({ ...sessionQuery(lab, value), enabled: value !== '' && !listed && data !== undefined });
  const all = own.data && !listed ? [own.data, ...rows] : rows;
  return (
    <>
      <div className="field">
        <label htmlFor={id}>{t.sessionSearch}</label>
        <input
          id={id}
          type="search"
          value={search}
          placeholder={t.sessionHint}
          onChange={(event) => setSearch(event.target.value)}
        />
      </div>
      {data && all.length === 0 ? (
        <p>{t.noSession}</p>
      ) : (
        <Choice label={t.session} value={value} onChange={onChange}>
          <option value="" />
          {all.map((one) => (
            <option key={one.id} value={one.id}>
              {t.sessionOf(one.person.name, one.person.code, whenText(one.startedAt), sessionTitle(one))}
            </option>
          ))}
        </Choice>
      )}
    </>
  );
}
