import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { squadsQuery } from '../../data/days.ts';
import { peopleQuery } from '../../data/imports.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { reportWords } from '../../words/reports.ts';
import { saveFile } from '../trial/save-file.ts';
import { SquadField } from './subject-fields.tsx';
import { type Batch, useBatch, zipOf } from './use-batch.ts';
import { queryOf, type ReportChoice } from './use-report.ts';

const t = reportWords.batch;

/** A page for each athlete of a squad in one file, with honest progress. */
export function BatchPart({ lab, report }: { lab: LabId; report: ReportChoice }) {
  const [squad, setSquad] = useState('');
  const { data: people = [], isSuccess, error, refetch } = useQuery(peopleQuery(lab));
  const name = useQuery(squadsQuery(lab)).data?.find(({ id }) => id === squad)?.name;
  const members = people.filter(
    ({ squads, sessions }) => sessions > 0 && (name === undefined || squads.includes(name)),
  );
  const { batch, start, stop } = useBatch(lab);
  const { person: _, ...asked } = queryOf(report);
  const paper = report.paper === undefined ? {} : { paper: report.paper };
  return (
    <details className="panel report-batch" open={batch.state === 'idle' ? undefined : true}>
      <summary>{t.title}</summary>
      <p className="small soft">{t.lead}</p>
      <SquadField lab={lab} value={squad} onChange={setSquad} />
      {error !== null && people.length === 0 ? (
        <ProblemCard error={error} onRetry={() => void refetch()} />
      ) : members.length === 0 ? (
        isSuccess && <p>{t.none}</p>
      ) : (
        <div className="acts">
          {batch.state === 'running' ? (
            <button type="button" className="button" onClick={stop}>
              {t.cancel}
            </button>
          ) : (
            <button type="button" className="button" onClick={() => void start(members, { ...asked, ...paper })}>
              {t.start(members.length)}
            </button>
          )}
        </div>
      )}
      <Progress batch={batch} />
    </details>
  );
}

function Progress({ batch }: { batch: Batch }) {
  const { state, total, done, now, pages, failed } = batch;
  if (state === 'idle') return null;
  return (
    <>
      {state === 'running' && <progress value={done} max={total} aria-label={t.label} />}
      <p role="status">
        {state === 'running'
          ? t.progress(done + 1, total, now)
          : state === 'done'
            ? t.done(pages.size)
            : t.stopped(done, total)}
      </p>
      {failed.length > 0 && (
        <>
          <p>{t.failed(failed.length)}</p>
          <ul className="report-failed">
            {failed.map(({ name, detail, code }) => (
              <li key={name}>
                {name}: {detail} <span className="small soft number">{code}</span>
              </li>
            ))}
          </ul>
        </>
      )}
      {state !== 'running' && pages.size > 0 && (
        <div className="acts">
          <button type="button" className="button main" onClick={() => saveFile(zipOf(pages))}>
            {t.save(pages.size)}
          </button>
        </div>
      )}
    </>
  );
}
