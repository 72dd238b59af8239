import type { BeforeView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { beforeQuery } from '../../data/follow.ts';
import { FollowPlaces } from '../../parts/follow-places.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { followWords } from '../../words/follow.ts';
import { SquadChoice } from '../athletes/squad-choice.tsx';
import { useChoice } from '../athletes/use-choice.ts';
import { TableSkeleton } from '../sessions/session-table.tsx';
import { Grid } from './grid.tsx';
import { gainText, halfOf, planOf } from './plans.ts';
import { WherePart } from './where-part.tsx';
import '../sessions/sessions.css';
import './before.css';

/** What can this test confirm, before anybody pulls? */
export function BeforeScreen() {
  const t = followWords.before;
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const { squad, test, metric } = useChoice();
  const query = useQuery(
    beforeQuery(lab, {
      ...(squad ? { squad } : {}),
      ...(test === undefined ? {} : { test }),
      ...(metric === undefined ? {} : { metric }),
    }),
  );
  const { data } = query;
  return (
    <section className="page before-page" aria-busy={query.isFetching}>
      <FollowPlaces lab={lab} />
      <div className="page-head">
        <h1>{t.title}</h1>
        <p className="soft">{t.question}</p>
      </div>
      {query.isError && <ProblemCard error={query.error} onRetry={() => void query.refetch()} />}
      {!data && !query.isError && <TableSkeleton />}
      {data && (
        <>
          <SquadChoice view={data} />
          {data.noise === undefined ? <p className="nothing">{t.none}</p> : <Answer view={data} />}
        </>
      )}
    </section>
  );
}

function Answer({ view }: { view: BeforeView }) {
  const t = followWords.before;
  const usual = planOf(view.plans, view.usual, 1);
  const half = usual && halfOf(view.plans, usual);
  const squad = view.squads.find(({ id }) => id === view.squad)?.name;
  const whom = squad === undefined ? t.anybody : t.anybodyOf(squad);
  return (
    <>
      {usual && (
        <div className="before-answer">
          <p className="before-size">{gainText(usual.confirmable, view)}</p>
          <p>{t.answer(whom, gainText(usual.confirmable, view), usual.trials)}</p>
          <p className="soft">{half === undefined ? t.noHalf : t.half(t.plan(half.trials, half.sessions))}</p>
        </div>
      )}
      <Grid view={view} usual={usual} half={half} />
      <WherePart view={view} />
    </>
  );
}
