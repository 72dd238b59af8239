import { useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { isMissing, useCurve, useTrial } from '../../data/queries.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { TrialPage } from './trial-page.tsx';
import './trial.css';
import './print.css';

/** Why this number? One trial with its curve, values, checks and decisions. */
export function TrialScreen() {
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const trial = useTrial(lab, id);
  const curve = useCurve(lab, id);
  usePageTitle(trial.data ? words.trial.trialN(trial.data.order) : words.app.loading);
  const failed = trial.isError ? trial : curve.isError ? curve : undefined;
  if (trial.data && curve.data)
    return <TrialPage key={`${lab}/${id}`} lab={lab} view={trial.data} curve={curve.data} />;
  if (failed)
    return (
      <section className="page">
        <ProblemCard page error={failed.error} onRetry={() => void Promise.all([trial.refetch(), curve.refetch()])} />
      </section>
    );
  return <Skeleton waits={isMissing(trial.failureReason)} />;
}

/** The page's shape while it is on its way. `waits`: the station has not written the trial yet, or has none such. */
function Skeleton({ waits }: { waits: boolean }) {
  return (
    <div className="trial" aria-busy="true">
      <div className="trial-head">
        <p className={waits ? 'trial-waits' : 'unseen'} role="status">
          {waits ? words.trial.notWrittenYet : words.app.loading}
        </p>
        {!waits && <span className="bone bone-title" />}
      </div>
      <div className="trial-verdict">
        <span className="bone bone-card" />
      </div>
      <div className="trial-curve">
        <span className="bone bone-plot" />
      </div>
      <div className="trial-beside">
        {Array.from({ length: 8 }, (_, i) => (
          <span className="bone bone-row" key={i} />
        ))}
      </div>
    </div>
  );
}
