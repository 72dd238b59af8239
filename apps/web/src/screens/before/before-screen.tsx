import type { BeforeView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useLab } from '../../app/lab.ts';
import { beforeQuery } from '../../data/follow.ts';
import { followWords } from '../../words/follow.ts';
import { FollowPage } from '../athletes/follow-page.tsx';
import { SquadChoice } from '../athletes/squad-choice.tsx';
import { useChoice } from '../athletes/use-choice.ts';
import { Grid } from './grid.tsx';
import { gainText, halfOf, planOf } from './plans.ts';
import { WherePart } from './where-part.tsx';
import './before.css';

/** What can this test confirm, before anybody pulls? */
export function BeforeScreen() {
  const t = followWords.before;
  const lab = useLab() ?? 'lab';
  const { squad, test, metric } = useChoice();
  const query = useQuery(
    beforeQuery(lab, {
      ...(squad ? { squad } : {}),
      ...(test === undefined ? {} : { test }),
      ...(metric === undefined ? {} : { metric }),
    }),
  );
  return (
    <FollowPage lab={lab} className="before-page" title={t.title} question={t.question} of={query}>
      {(data) => (
        <>
          <SquadChoice view={data} />
          {data.noise === undefined ? <p className="nothing">{t.none}</p> : <Confirmed view={data} />}
        </>
      )}
    </FollowPage>
  );
}

function Confirmed({ view }: { view: BeforeView }) {
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
