import { useQuery } from '@tanstack/react-query';
import { useId } from 'react';
import { sessionPagesQuery } from '../../data/session-pages.ts';
import { whenText } from '../../number/when.ts';
import { importWords } from '../../words/importing.ts';
import { groupOf, type Item } from './state.ts';
import type { Import } from './use-import.ts';
import { fieldTime, instantIn, ownTime, sameDay } from './when.ts';

/** When the session was, filled from the recording or the file; and which session the trials join. */
export function WhenField({ imported, items }: { imported: Import; items: readonly Item[] }) {
  const t = importWords.athlete;
  const { state, act, lab } = imported;
  const id = useId();
  const [first] = items;
  const own = first && ownTime(first);
  const field = state.when === '' && own ? fieldTime(own.at) : state.when;
  const person = !state.different && state.who?.kind === 'known' ? state.who.id : undefined;
  const sessions = useQuery({
    ...sessionPagesQuery(lab, { person: person ?? '', limit: 50, offset: 0 }),
    enabled: person !== undefined,
  });
  const at = instantIn(field);
  const test = first && state.drafts[groupOf(first)]?.test;
  const joinable = person
    ? (sessions.data?.rows ?? []).filter(
        (row) =>
          !row.received &&
          row.person.id === person &&
          row.protocol === test &&
          at !== undefined &&
          sameDay(row.startedAt, at),
      )
    : [];
  return (
    <div className="when-field">
      <div className="field">
        <label htmlFor={`${id}when`}>{t.when}</label>
        <input
          id={`${id}when`}
          type="datetime-local"
          value={field}
          aria-describedby={`${id}from`}
          onChange={(event) => act({ do: 'set', part: { when: event.target.value, session: '' } })}
        />
        <p id={`${id}from`} className="small soft">
          {at === undefined ? t.whenBad : whenText(at)}. {state.when === '' && own ? t.whenFrom[own.from] : ''}
        </p>
      </div>
      {joinable.length > 0 && (
        <div className="field">
          <label htmlFor={`${id}session`}>{t.session}</label>
          <select
            id={`${id}session`}
            value={state.session}
            onChange={(event) => act({ do: 'set', part: { session: event.target.value } })}
          >
            <option value="">{t.newSession}</option>
            {joinable.map((row) => (
              <option key={row.id} value={row.id}>
                {t.intoSession(whenText(row.startedAt), row.trials)}
              </option>
            ))}
          </select>
        </div>
      )}
      {items.length > 1 && state.session === '' && (
        <label className="choice-line">
          <input
            type="checkbox"
            checked={state.oneSession}
            onChange={(event) => act({ do: 'set', part: { oneSession: event.target.checked } })}
          />
          {t.oneSession}
        </label>
      )}
    </div>
  );
}
