import { useQuery } from '@tanstack/react-query';
import { useId } from 'react';
import { Link, useSearchParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { todayQuery } from '../../data/follow.ts';
import { numberText } from '../../number/format.ts';
import { athleteWords } from '../../words/athletes.ts';
import { followWords } from '../../words/follow.ts';
import { inSentence } from '../../words/title.ts';
import { Choice } from '../athletes/choice.tsx';
import { FollowPage } from '../athletes/follow-page.tsx';
import { ActRow } from './act-row.tsx';
import { RulesPart } from './rules-part.tsx';
import './today.css';

/** What should a coach act on? At most five rows, with what chance alone would give. */
export function TodayScreen() {
  const t = followWords.today;
  const lab = useLab() ?? 'lab';
  const [search, setSearch] = useSearchParams();
  const squad = search.get('squad') ?? undefined;
  const on = search.get('on') ?? undefined;
  const query = useQuery(todayQuery(lab, { ...(squad ? { squad } : {}), ...(on ? { on } : {}) }));
  const id = useId();
  const set = (key: 'squad' | 'on', value: string) =>
    setSearch(
      (now) => {
        const next = new URLSearchParams(now);
        if (value === '') next.delete(key);
        else next.set(key, value);
        return next;
      },
      { replace: true },
    );
  return (
    <FollowPage lab={lab} className="today-page" title={t.title} question={t.question} of={query}>
      {(data) => (
        <>
          <div className="today-choice">
            <Choice label={athleteWords.squad} value={data.squad ?? ''} onChange={(value) => set('squad', value)}>
              <option value="">{athleteWords.everybody}</option>
              {data.squads.map(({ id: of, name, members }) => (
                <option key={of} value={of}>
                  {athleteWords.squadOf(name, members)}
                </option>
              ))}
            </Choice>
            <div className="field">
              <label htmlFor={id}>{t.on}</label>
              <input id={id} type="date" value={data.on} onChange={(event) => set('on', event.target.value)} />
            </div>
          </div>
          <p className="soft">
            {t.chosen[data.chosen]} {t.judgedBy(inSentence(data.metric.title))}{' '}
            {t.chance(data.judged, numberText(data.byChance, 1))}
          </p>
          {data.rows.length === 0 ? (
            <p className="nothing">{t.nothing}</p>
          ) : (
            <ol className="today-rows">
              {data.rows.map((row) => (
                <ActRow key={row.kind === 'due' ? 'due' : row.person.id} lab={lab} row={row} view={data} />
              ))}
            </ol>
          )}
          {data.found > data.rows.length && (
            <p>
              <Link
                to={`/${lab}/athletes?${new URLSearchParams({ ...(squad ? { squad } : {}), metric: data.metric.id })}`}
              >
                {t.more(data.found - data.rows.length)}
              </Link>
            </p>
          )}
          <RulesPart lab={lab} squads={data.squads} />
        </>
      )}
    </FollowPage>
  );
}
