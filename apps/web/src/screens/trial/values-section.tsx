import { type ReactNode, useId, useState } from 'react';
import { useSay } from '../../parts/status.tsx';
import { words } from '../../words/index.ts';
import { copyTable } from './copy-table.ts';
import { groupsOf, headlineOf, metricTitle } from './groups.ts';
import { useShared } from './trial-context.ts';
import { ValueRow } from './value-row.tsx';
import './values.css';

/** Values of the trial: those one looks at first, what else belongs to them, then all others folded by group. */
export function ValuesSection({ current, children }: { current: boolean; children?: ReactNode }) {
  const { view } = useShared();
  const say = useSay();
  const filterId = useId();
  const [filter, setFilter] = useState('');
  const { result } = view;
  const t = words.values;
  const first = headlineOf(result);
  const wanted = filter.trim().toLowerCase();
  const matches = (id: string) =>
    wanted === '' || id.includes(wanted.replaceAll(' ', '_')) || metricTitle(id).toLowerCase().includes(wanted);
  const groups = groupsOf(result)
    .map((group) => ({ ...group, metrics: group.metrics.filter(matches) }))
    .filter((group) => group.metrics.length > 0);
  return (
    <section className="beside-section values" data-current={current} aria-label={words.trial.sections.values}>
      <ValueTable ids={first} caption={t.caption} head />
      <div className="values-end">
        <button
          type="button"
          className="button quiet small"
          onClick={() => void copyTable(view).then(() => say(t.copied))}
        >
          {t.copy}
        </button>
      </div>
      {children}
      <div className="values-more">
        <h2>{t.all}</h2>
        <label className="unseen" htmlFor={filterId}>
          {t.filter}
        </label>
        <input
          id={filterId}
          type="search"
          value={filter}
          placeholder={t.filterHint}
          onChange={(event) => setFilter(event.target.value)}
        />
      </div>
      {groups.length === 0 && <p className="soft small">{t.nothing}</p>}
      {groups.map((group) => (
        <details key={group.id} className="value-group" open={wanted !== '' || undefined}>
          <summary>
            {group.title} <span className="soft number">{group.metrics.length}</span>
          </summary>
          <ValueTable ids={group.metrics} caption={group.title} />
        </details>
      ))}
      <p className="small soft values-note">{t.note}</p>
    </section>
  );
}

function ValueTable({ ids, caption, head = false }: { ids: readonly string[]; caption: string; head?: boolean }) {
  const t = words.values.head;
  return (
    <table className="value-table">
      <caption className="unseen">{caption}</caption>
      <thead className={head ? undefined : 'unseen'}>
        <tr className="small soft">
          <th scope="col">{t.name}</th>
          <th scope="col" colSpan={2} className="right">
            <span className="unseen">{t.number}</span>
          </th>
          <th scope="col" className="spread-head">
            {t.spread}
            <span className="spread-scale number" aria-hidden="true">
              <span>{'\u221230'}</span>
              <span>+30{'\u2009'}%</span>
            </span>
          </th>
        </tr>
      </thead>
      <tbody>
        {ids.map((id) => (
          <ValueRow key={id} id={id} />
        ))}
      </tbody>
    </table>
  );
}
