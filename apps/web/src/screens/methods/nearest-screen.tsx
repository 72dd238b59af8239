import { type LabId, methodRoutes, mostLines } from '@sthene/contract';
import { metricRegistry } from '@sthene/core';
import { useId, useState } from 'react';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { useNearest } from '../../data/methods.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { methodWords } from '../../words/methods.ts';
import { Choice } from '../athletes/choice.tsx';
import { NearestList } from './nearest-list.tsx';
import { columnsOf, guessOf, type TableGuess } from './table-guess.ts';
import '../../parts/form.css';
import './methods.css';

const t = methodWords.nearest;

/** Which method gives values nearest to a table from elsewhere. */
export function NearestScreen() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const may = useMay()(methodRoutes.nearestMethod);
  return (
    <section className="page live-page method-page">
      <Link className="way-back" to={`/${lab}/methods`}>
        <Icon name="left" size={16} /> {methodWords.back}
      </Link>
      <div className="page-head">
        <h1>{t.title}</h1>
        <p className="soft">{t.lead}</p>
      </div>
      <p className="band">{t.caution}</p>
      {may ? <TableForm lab={lab} /> : <p className="small soft">{methodWords.preview.elsewhere}</p>}
    </section>
  );
}

function TableForm({ lab }: { lab: LabId }) {
  const id = useId();
  const [text, setText] = useState('');
  const [guess, setGuess] = useState<TableGuess>({ way: 'trial', columns: {}, values: {} });
  const [tried, setTried] = useState(false);
  const nearest = useNearest(lab);
  const columns = columnsOf(text);
  const take = (next: string) => {
    setText(next);
    setGuess(guessOf(columnsOf(next)));
    nearest.reset();
  };
  const values = Object.entries(guess.values).flatMap(([column, { metric, unit }]) =>
    metric === '' ? [] : [{ column, metric, ...(unit.trim() === '' ? {} : { unit: unit.trim() }) }],
  );
  const run = () => {
    setTried(true);
    if (values.length === 0) return;
    nearest.mutate({ text, columns: columnsAsked(guess), values });
  };
  return (
    <>
      <form
        className="panel"
        onSubmit={(event) => {
          event.preventDefault();
          run();
        }}
      >
        <div className="field">
          <label htmlFor={id}>{t.paste}</label>
          <textarea
            id={id}
            rows={7}
            value={text}
            spellCheck={false}
            className="number table-text"
            aria-describedby={`${id}-help`}
            onChange={(event) => take(event.target.value)}
          />
          <span id={`${id}-help`} className="small soft">
            {t.pasteHelp(mostLines)}
          </span>
        </div>
        <label className="button file-choice">
          {t.file}
          <input
            type="file"
            className="unseen"
            accept=".csv,.tsv,.txt,text/csv"
            onChange={(event) => {
              const file = event.target.files?.[0];
              if (file) void file.text().then(take);
              event.target.value = '';
            }}
          />
        </label>
        {columns.length > 0 && <Columns columns={columns} guess={guess} onChange={setGuess} />}
        {tried && values.length === 0 && <p className="field-error">{t.needsValue}</p>}
        <div className="acts">
          <button type="submit" className="button main" disabled={columns.length === 0 || nearest.isPending}>
            {t.run}
          </button>
          {nearest.isPending && (
            <span className="soft" role="status">
              {t.running}
            </span>
          )}
        </div>
      </form>
      {nearest.isError && <ProblemCard error={nearest.error} onRetry={run} />}
      {nearest.data && <NearestList lab={lab} found={nearest.data} />}
    </>
  );
}

/** Only the columns of the way that was chosen. */
function columnsAsked({ way, columns }: TableGuess): Record<string, string> {
  const wanted = { trial: ['trial'], file: ['file', 'label'], person: ['person', 'date', 'order'] }[way];
  return Object.fromEntries(
    wanted.flatMap((key) => {
      const column = columns[key];
      return column === undefined || column === '' ? [] : [[key, column]];
    }),
  );
}

const fieldsOf = {
  trial: [['trial', t.trial]],
  file: [
    ['file', t.fileName],
    ['label', t.label],
  ],
  person: [
    ['person', t.person],
    ['date', t.date],
    ['order', t.order],
  ],
} as const;

function Columns({
  columns,
  guess,
  onChange,
}: {
  columns: readonly string[];
  guess: TableGuess;
  onChange: (guess: TableGuess) => void;
}) {
  const used = new Set(fieldsOf[guess.way].map(([key]) => guess.columns[key]));
  return (
    <>
      <h2>{t.which}</h2>
      <div className="preview-choice">
        <Choice
          label={t.which}
          value={guess.way}
          onChange={(way) => onChange({ ...guess, way: way as TableGuess['way'] })}
        >
          {(['trial', 'file', 'person'] as const).map((way) => (
            <option key={way} value={way}>
              {t.ways[way]}
            </option>
          ))}
        </Choice>
        {fieldsOf[guess.way].map(([key, label]) => (
          <Choice
            key={key}
            label={label}
            value={guess.columns[key] ?? ''}
            onChange={(column) => onChange({ ...guess, columns: { ...guess.columns, [key]: column } })}
          >
            <option value="">{t.notUsed}</option>
            {columns.map((column) => (
              <option key={column} value={column}>
                {column}
              </option>
            ))}
          </Choice>
        ))}
      </div>
      <h2>{t.values}</h2>
      <ul className="table-columns">
        {columns
          .filter((column) => !used.has(column))
          .map((column) => {
            const { metric = '', unit = '' } = guess.values[column] ?? {};
            const put = (part: { metric?: string; unit?: string }) =>
              onChange({ ...guess, values: { ...guess.values, [column]: { metric, unit, ...part } } });
            return (
              <li key={column}>
                <Choice label={column} value={metric} onChange={(value) => put({ metric: value })}>
                  <option value="">{t.notUsed}</option>
                  {metricRegistry.all.map(({ id, title, unit: own }) => (
                    <option key={id} value={id}>
                      {title} ({own})
                    </option>
                  ))}
                </Choice>
                {metric !== '' && (
                  <UnitField
                    value={unit}
                    usual={metricRegistry.get(metric)?.unit ?? ''}
                    onChange={(value) => put({ unit: value })}
                  />
                )}
              </li>
            );
          })}
      </ul>
    </>
  );
}

function UnitField({ value, usual, onChange }: { value: string; usual: string; onChange: (value: string) => void }) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{t.unit}</label>
      <input id={id} value={value} placeholder={usual} size={8} onChange={(event) => onChange(event.target.value)} />
    </div>
  );
}
