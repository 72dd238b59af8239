import { protocolRegistry } from '@sthene/core';
import { useEffect, useId, useState } from 'react';
import { sessionWords as t } from '../../words/session-list.ts';
import type { SessionListFilter } from './use-session-filter.ts';

interface FiltersProps {
  readonly filter: SessionListFilter;
  setFilter(next: SessionListFilter): void;
}

/** Text and test. Typing waits a moment before it asks the station. */
export function Filters({ filter, setFilter }: FiltersProps) {
  const [draft, setDraft] = useState(filter.text);
  const id = useId();
  useEffect(() => setDraft(filter.text), [filter.text]);
  useEffect(() => {
    if (draft.trim() === filter.text) return;
    const timer = setTimeout(() => setFilter({ ...filter, text: draft.trim(), page: 1 }), 250);
    return () => clearTimeout(timer);
  }, [draft, filter, setFilter]);
  return (
    <search className="filters">
      <div className="field">
        <label htmlFor={`${id}text`}>{t.search}</label>
        <input
          id={`${id}text`}
          type="search"
          value={draft}
          placeholder={t.searchHint}
          maxLength={100}
          onChange={(event) => setDraft(event.target.value)}
        />
      </div>
      <div className="field">
        <label htmlFor={`${id}test`}>{t.test}</label>
        <select
          id={`${id}test`}
          value={filter.test}
          onChange={(event) => setFilter({ ...filter, test: event.target.value, page: 1 })}
        >
          <option value="">{t.allTests}</option>
          {protocolRegistry.all.map((test) => (
            <option key={test.id} value={test.id}>
              {test.title}
            </option>
          ))}
        </select>
      </div>
    </search>
  );
}
