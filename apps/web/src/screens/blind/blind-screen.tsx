import type { BlindStudy, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { blindStudiesQuery } from '../../data/follow.ts';
import { whenText } from '../../number/when.ts';
import { FollowPlaces } from '../../parts/follow-places.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { blindWords as t } from '../../words/blind.ts';
import { TableSkeleton } from '../sessions/session-table.tsx';
import { CloseDialog } from './close-dialog.tsx';
import { DrawDialog } from './draw-dialog.tsx';
import '../sessions/sessions.css';
import './blind.css';

/** Double readings: draw one, read in it, close it and compare. */
export function BlindScreen() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const studies = useQuery(blindStudiesQuery(lab));
  const [drawing, setDrawing] = useState(false);
  const { data } = studies;
  return (
    <section className="page blind-page" aria-busy={studies.isFetching}>
      <FollowPlaces lab={lab} />
      <div className="page-head">
        <h1>{t.title}</h1>
        <p className="soft">{t.question}</p>
      </div>
      <p>{t.intro}</p>
      {studies.isError && <ProblemCard error={studies.error} onRetry={() => void studies.refetch()} />}
      {!data && !studies.isError && <TableSkeleton />}
      <div className="acts">
        <button type="button" className="button main" onClick={() => setDrawing(true)}>
          {t.draw}
        </button>
      </div>
      {data?.length === 0 && <p className="nothing">{t.none}</p>}
      {data && data.length > 0 && (
        <ul className="blind-studies">
          {data.map((study) => (
            <Study key={study.id} lab={lab} study={study} />
          ))}
        </ul>
      )}
      {drawing && <DrawDialog lab={lab} onClose={() => setDrawing(false)} />}
    </section>
  );
}

function Study({ lab, study }: { lab: LabId; study: BlindStudy }) {
  const [closing, setClosing] = useState(false);
  return (
    <li className="blind-study">
      <h2>{study.title}</h2>
      <p className="small soft">
        {whenText(study.createdAt, false)}, {study.closed ? t.closed : t.open}.{' '}
        {study.readers.map(({ name, read }) => t.readers(name, read, study.trials)).join('; ')}
      </p>
      <div className="acts">
        {study.closed ? (
          <Link className="button" to={`/${lab}/blind/${study.id}`}>
            {t.compare}
          </Link>
        ) : (
          <>
            {study.readers.map(({ name }, reader) => (
              <Link key={name} className="button" to={`/${lab}/blind/${study.id}/read/${reader}`}>
                {t.read(name)}
              </Link>
            ))}
            <button type="button" className="button quiet" onClick={() => setClosing(true)}>
              {t.close}
            </button>
          </>
        )}
      </div>
      {closing && <CloseDialog lab={lab} study={study} onClose={() => setClosing(false)} />}
    </li>
  );
}
