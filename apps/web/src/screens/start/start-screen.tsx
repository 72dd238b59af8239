import type { Lab } from '@sthene/contract';
import { lazy, Suspense } from 'react';
import { usePageTitle } from '../../app/page-title.ts';
import { useStation } from '../../data/queries.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { startWords as t } from '../../words/start.ts';
import { Cautions } from './cautions.tsx';
import { Choices } from './choices.tsx';
import { LabCard } from './lab-card.tsx';
import { PlatesDue } from './plates-due.tsx';
import { Today } from './today.tsx';
import { Unfinished } from './unfinished.tsx';
import './start.css';

// The figure computes a whole simulated pull; the page does not wait for it.
const Figure = lazy(() => import('./figure.tsx'));

/** What now? The first time: what one can do. Later: what is there and what is unfinished. */
export function StartScreen() {
  usePageTitle(words.app.start);
  const station = useStation();
  const labs = station.data?.labs ?? [];
  const own = labs.find((lab) => lab.id === 'lab');
  const example = labs.find((lab) => lab.id === 'example');
  const there = [own, example].filter((lab): lab is Lab => lab?.exists === true && lab.progress === undefined);
  return (
    <section className="page start-page" data-first={there.length === 0}>
      <header className="start-head">
        <div>
          <h1>{t.title}</h1>
          <p className="start-lead">{t.lead}</p>
        </div>
        {station.data && there.length === 0 && (
          <Suspense fallback={<div className="start-figure" />}>
            <Figure />
          </Suspense>
        )}
      </header>
      {station.isError && <ProblemCard error={station.error} onRetry={() => void station.refetch()} />}
      {station.isPending && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {there.length > 0 && <Today labs={there} />}
      {there.map((lab) => (
        <PlatesDue key={lab.id} lab={lab.id} demo={lab.demo} />
      ))}
      {own?.exists && <Unfinished />}
      {there.length > 0 && (
        <div className="lab-cards">
          {there.map((lab) => (
            <LabCard key={lab.id} lab={lab} />
          ))}
        </div>
      )}
      {station.data && <Choices own={own} example={example} />}
      {station.data && <Cautions />}
    </section>
  );
}
