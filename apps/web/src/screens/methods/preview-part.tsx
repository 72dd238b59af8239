import { type LabId, methodRoutes, mostPreviewed, type PreviewedTrial, type PreviewRequest } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link, useSearchParams } from 'react-router';
import { useMay } from '../../data/access.ts';
import { peopleQuery } from '../../data/imports.ts';
import { usePreview } from '../../data/methods.ts';
import { sessionsQuery } from '../../data/queries.ts';
import { whenText } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { StateMark } from '../../parts/state-mark.tsx';
import { words } from '../../words/index.ts';
import { methodWords } from '../../words/methods.ts';
import { Choice } from '../athletes/choice.tsx';
import { differenceText, valueText } from '../athletes/values.ts';
import { ComparedTable } from './compared-table.tsx';

const t = methodWords.preview;
const counts = [1, 3, 5, 10, 20];
const usualMetric = 'peak_force';

/** Judges some trials by a method, kept or only written down, beside what is in force. Nothing is stored. */
export function PreviewPart({
  lab,
  method,
}: {
  lab: LabId;
  method: Pick<Partial<PreviewRequest>, 'method' | 'document'>;
}) {
  const [search, setSearch] = useSearchParams();
  const people = useQuery(peopleQuery(lab));
  const sessions = useQuery(sessionsQuery(lab));
  const preview = usePreview(lab);
  const may = useMay();
  const of = (key: string) => search.get(key) ?? '';
  const choose = (key: string, value: string) =>
    setSearch(
      (now) => {
        const next = new URLSearchParams(now);
        if (value === '') next.delete(key);
        else next.set(key, value);
        return next;
      },
      { replace: true },
    );
  const newest = counts.find((n) => String(n) === of('newest')) ?? 3;
  const run = () =>
    preview.mutate({
      ...method,
      sessions: newest,
      ...(of('session') === '' ? {} : { session: of('session') }),
      ...(of('person') === '' ? {} : { person: of('person') }),
    });
  const { data } = preview;
  const metric =
    data?.metrics.find(({ id }) => id === of('value')) ?? data?.metrics.find(({ id }) => id === usualMetric);
  return (
    <section className="panel" aria-labelledby="preview" aria-busy={preview.isPending}>
      <h2 id="preview">{t.title}</h2>
      <p className="small soft">{t.help}</p>
      {!may(methodRoutes.previewMethod) ? (
        <p className="small soft">{t.elsewhere}</p>
      ) : (
        <div className="preview-choice">
          <Choice label={t.which} value={String(newest)} onChange={(value) => choose('newest', value)}>
            {counts.map((n) => (
              <option key={n} value={n}>
                {t.newest(n)}
              </option>
            ))}
          </Choice>
          <Choice label={t.athlete} value={of('person')} onChange={(value) => choose('person', value)}>
            <option value="">{t.everybody}</option>
            {people.data?.map(({ id, givenName, familyName }) => (
              <option key={id} value={id}>
                {givenName} {familyName}
              </option>
            ))}
          </Choice>
          <Choice label={t.session} value={of('session')} onChange={(value) => choose('session', value)}>
            <option value="">{t.noSession}</option>
            {sessions.data?.rows.map(({ id, person, startedAt }) => (
              <option key={id} value={id}>
                {person.name}, {whenText(startedAt)}
              </option>
            ))}
          </Choice>
          <button type="button" className="button main" disabled={preview.isPending} onClick={run}>
            {t.run}
          </button>
        </div>
      )}
      {preview.isPending && (
        <p className="soft" role="status">
          {t.running}
        </p>
      )}
      {preview.isError && <ProblemCard error={preview.error} onRetry={run} />}
      {data && (
        <div className="preview-found" data-stale={preview.isPending}>
          {data.cut && <p className="small soft">{t.cut(mostPreviewed)}</p>}
          {data.trials.length === 0 ? (
            <p className="soft">{t.none}</p>
          ) : (
            <>
              <div className="preview-choice">
                <Choice label={t.value} value={metric?.id ?? ''} onChange={(value) => choose('value', value)}>
                  {data.metrics.map(({ id, title }) => (
                    <option key={id} value={id}>
                      {title}
                    </option>
                  ))}
                </Choice>
              </div>
              <Trials lab={lab} trials={data.trials} metric={metric?.id ?? usualMetric} unit={metric?.unit ?? 'N'} />
              <h3>{methodWords.comparison.title}</h3>
              <p className="small soft">{methodWords.comparison.note}</p>
              <ComparedTable metrics={data.metrics} />
            </>
          )}
        </div>
      )}
    </section>
  );
}

function Trials({
  lab,
  trials,
  metric,
  unit,
}: {
  lab: LabId;
  trials: readonly PreviewedTrial[];
  metric: string;
  unit: string;
}) {
  return (
    <div className="table-scroll">
      <table className="method-list preview-trials">
        <thead>
          <tr>
            <th scope="col">{t.head.trial}</th>
            <th scope="col" className="right">
              {t.head.was}
            </th>
            <th scope="col" className="right">
              {t.head.is}
            </th>
            <th scope="col" className="right">
              {t.head.change}
            </th>
            <th scope="col">{t.head.verdict}</th>
          </tr>
        </thead>
        <tbody>
          {trials.map((trial) => {
            const [was, is] = trial.values[metric] ?? [null, null];
            return (
              <tr key={trial.trial}>
                <th scope="row">
                  <Link to={`/${lab}/trials/${trial.trial}`}>
                    {t.trial(trial.person.name, whenText(trial.at, false), trial.order)}
                  </Link>
                  {trial.effort !== 'maximal' && <span className="small soft">{words.effort[trial.effort]}</span>}
                </th>
                <td className="right number">{was === null ? t.noValue : valueText(was, unit)}</td>
                <td className="right number">{is === null ? t.noValue : valueText(is, unit)}</td>
                <td className="right number">
                  {was === null || is === null ? '' : was === is ? t.kept : differenceText(is - was, unit)}
                </td>
                <td>
                  {trial.problem ? (
                    <span className="field-error">
                      {t.failed}: {trial.problem.words}
                    </span>
                  ) : (
                    <VerdictChange from={trial.from} to={trial.to} />
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

/** A verdict, and the one it was before where it differs. */
export function VerdictChange({ from, to }: Pick<PreviewedTrial, 'from' | 'to'>) {
  if (to === undefined) return null;
  if (from === undefined || from === to) return <StateMark state={to} />;
  return (
    <span className="verdict-change">
      <StateMark state={from} /> <span aria-hidden="true">→</span> <StateMark state={to} />
    </span>
  );
}
