import type { LabId, PublishedGroupView, PublishedPlace, PublishedView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { placeQuery } from '../../data/follow.ts';
import { numberText, unitText } from '../../number/format.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { publishedWords } from '../../words/published.ts';
import { inSentence } from '../../words/title.ts';
import { Choice } from '../athletes/choice.tsx';
import { valueText } from '../athletes/values.ts';
import { groupName } from './group-name.ts';
import { typedValue } from './typed-value.ts';

const t = publishedWords.place;

/** One value, of an athlete or typed, held against one published group. It is asked for here and kept nowhere. */
export function PlacePart({ lab, view }: { lab: LabId; view: PublishedView }) {
  const { unit } = view.metric;
  const [groupId, setGroup] = useState(view.groups[0]?.id ?? '');
  const [who, setWho] = useState('');
  const [text, setText] = useState('');
  const ids = { title: useId(), value: useId(), wrong: useId() };
  const group = view.groups.find(({ id }) => id === groupId);
  const person = view.people.find(({ id }) => id === who);
  const value = person?.value ?? typedValue(text);
  const wrong = person === undefined && text.trim() !== '' && value === undefined;
  return (
    <section className="published-place" aria-labelledby={ids.title}>
      <h3 id={ids.title}>{t.title}</h3>
      <div className="published-choice">
        <Choice label={t.group} value={groupId} onChange={setGroup}>
          {view.groups.map((one) => (
            <option key={one.id} value={one.id}>
              {groupName(one)}
            </option>
          ))}
        </Choice>
        <Choice label={t.whose} value={who} onChange={setWho}>
          <option value="">{t.typed}</option>
          {view.people.map(({ id, name, value: own }) => (
            <option key={id} value={id}>
              {t.person(name, valueText(own, unit))}
            </option>
          ))}
        </Choice>
        {person === undefined && (
          <div className="field">
            <label htmlFor={ids.value}>{t.value(unitText(unit))}</label>
            <input
              id={ids.value}
              inputMode="decimal"
              autoComplete="off"
              value={text}
              aria-invalid={wrong}
              aria-describedby={wrong ? ids.wrong : undefined}
              onChange={(event) => setText(event.target.value)}
            />
            {wrong && (
              <span id={ids.wrong} className="field-error">
                {t.wrong}
              </span>
            )}
          </div>
        )}
      </div>
      {group !== undefined && value !== undefined ? (
        <Found lab={lab} group={group} value={value} unit={unit} sex={person?.sex} />
      ) : (
        <p className="soft">{t.ask}</p>
      )}
    </section>
  );
}

interface FoundProps {
  readonly lab: LabId;
  readonly group: PublishedGroupView;
  readonly value: number;
  readonly unit: string;
  readonly sex: PublishedView['people'][number]['sex'];
}

function Found({ lab, group, value, unit, sex }: FoundProps) {
  const query = useQuery(placeQuery(lab, group.id, { value, unit }));
  if (query.isError) return <ProblemCard error={query.error} onRetry={() => void query.refetch()} />;
  const unlike = sex !== undefined && (group.sex === 'female' || group.sex === 'male') && sex !== group.sex;
  return (
    <div className="published-found" role="status">
      {query.data && (
        <>
          <p>{t.of(valueText(value, unit), inSentence(groupName(group)))}</p>
          {unlike && (
            <p className="published-unlike">{t.otherSex(publishedWords.sex[group.sex] ?? '', t.noted[sex] ?? '')}</p>
          )}
          <Scores place={query.data} />
          <p className="small soft">
            {[
              query.data.error === undefined || group.n === undefined
                ? t.unsure
                : t.error(numberText(query.data.error, 2), group.n),
              t.normal,
              t.kept,
            ].join(' ')}
          </p>
        </>
      )}
    </div>
  );
}

function Scores({ place }: { place: PublishedPlace }) {
  const percent = (share: number) =>
    share > 99.5 ? '>99\u00a0%' : share < 0.5 ? '<1\u00a0%' : `${numberText(share, 0)}\u00a0%`;
  const rows = [
    { name: t.z, score: place.z, text: (x: number) => numberText(x, 2) },
    { name: t.percentile, score: place.percentile, text: percent },
    { name: t.t, score: place.t, text: (x: number) => numberText(x, 0) },
  ];
  return (
    <dl className="published-scores">
      {rows.map(({ name, score: { value, low, high }, text }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd className="number">{text(value)}</dd>
          {low !== undefined && high !== undefined && <dd className="soft">{t.limits(text(low), text(high))}</dd>}
        </div>
      ))}
    </dl>
  );
}
