import type { LabId, Person, ReceivedPerson } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { peopleQuery } from '../../data/imports.ts';
import { Icon } from '../../parts/icon.tsx';
import { receivedWords } from '../../words/received.ts';
import type { Results } from './use-results.ts';

const icons = { sure: 'pass', doubtful: 'warn', unknown: 'not-judged' } as const;

/** Everybody of the table: who they surely are, who they may be, and a decision for each. */
export function PeoplePart({ lab, results }: { lab: LabId; results: Results }) {
  const t = receivedWords.screen.people;
  const { people, decided, decide } = results;
  const here = useQuery({ ...peopleQuery(lab), retry: false }).data ?? [];
  const id = useId();
  if (people.length === 0) return null;
  const open = people.filter(({ key }) => !decided[key]);
  const sure = open.filter(({ match }) => match === 'sure');
  const unknown = open.filter(({ match }) => match === 'unknown');
  // Doubts first: they are what a person is asked for.
  const order = { doubtful: 0, unknown: 1, sure: 2 };
  const sorted = people.toSorted((a, b) => order[a.match] - order[b.match] || a.row - b.row);
  return (
    <section className="results-part" aria-labelledby={id}>
      <h2 id={id}>{t.title}</h2>
      <p className="small soft">{t.text}</p>
      <div className="acts">
        {sure.length > 0 && (
          <button
            type="button"
            className="button"
            onClick={() => decide(Object.fromEntries(sure.map((one) => [one.key, one.candidates[0]?.id ?? ''])))}
          >
            {t.confirm(sure.length)}
          </button>
        )}
        {unknown.length > 0 && (
          <button
            type="button"
            className="button"
            onClick={() => decide(Object.fromEntries(unknown.map(({ key }) => [key, 'new'])))}
          >
            {t.createAll(unknown.length)}
          </button>
        )}
        <span role="status">{t.decided(people.length - open.length, people.length)}</span>
      </div>
      <ul className="results-people">
        {sorted.map((one) => (
          <PersonRow
            key={one.key}
            one={one}
            here={here}
            value={decided[one.key] ?? ''}
            onChange={(value) => decide({ [one.key]: value })}
          />
        ))}
      </ul>
    </section>
  );
}

interface RowProps {
  readonly one: ReceivedPerson;
  readonly here: readonly Person[];
  readonly value: string;
  onChange(value: string): void;
}

function PersonRow({ one, here, value, onChange }: RowProps) {
  const t = receivedWords.screen.people;
  // Everybody of the lab is listed only where somebody looks: hundreds of long lists would slow the page.
  const [touched, setTouched] = useState(false);
  const near = new Set(one.candidates.map(({ id }) => id));
  const chosen = here.find(({ id }) => id === value && !near.has(id));
  const others = touched ? here.filter(({ id }) => !near.has(id)) : chosen ? [chosen] : [];
  const touch = () => setTouched(true);
  return (
    <li className="results-person" data-open={value === ''}>
      <span className="results-match">
        <Icon name={icons[one.match]} size={18} /> {t.match[one.match]}
      </span>
      <span className="results-said">
        <b>{one.said}</b>{' '}
        <span className="small soft">
          {[one.code === one.said ? undefined : one.code, one.birthDate && t.born(one.birthDate), t.values(one.values)]
            .filter(Boolean)
            .join(' \u00b7 ')}
        </span>
      </span>
      <select
        aria-label={t.who(one.said)}
        value={value}
        onFocus={touch}
        onPointerDown={touch}
        onChange={(event) => onChange(event.target.value)}
      >
        <option value="">{t.undecided}</option>
        {one.candidates.map(({ id, name, code, birthDate, why }) => (
          <option key={id} value={id}>
            {`${name}, ${code}${birthDate && one.match === 'doubtful' ? `, ${t.born(birthDate)}` : ''} (${t.why[why] ?? why})`}
          </option>
        ))}
        <option value="new">{`${t.create}: ${one.draft.givenName} ${one.draft.familyName}`.trim()}</option>
        <option value="skip">{t.skip}</option>
        {others.length > 0 && (
          <optgroup label={t.others}>
            {others.map(({ id, givenName, familyName, code }) => (
              <option key={id} value={id}>
                {`${givenName} ${familyName}, ${code}`}
              </option>
            ))}
          </optgroup>
        )}
      </select>
    </li>
  );
}
