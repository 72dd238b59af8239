import { type LabId, type RigChecksView, type RigView, rigCheckRoutes } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams, useSearchParams } from 'react-router';
import { useLab } from '../../../app/lab.ts';
import { usePageTitle } from '../../../app/page-title.ts';
import { useMay } from '../../../data/access.ts';
import { rigChecksQuery } from '../../../data/rig-checks.ts';
import { rigQuery } from '../../../data/rigs.ts';
import { Icon } from '../../../parts/icon.tsx';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { RigLetter } from '../../../parts/rig-letter.tsx';
import { SignFirst } from '../../../parts/signed.tsx';
import { words } from '../../../words/index.ts';
import { rigWords } from '../../../words/rig.ts';
import { rigCheckWords as t } from '../../../words/rig-check.ts';
import { BeginForm } from './begin-form.tsx';
import { CheckResult } from './check-result.tsx';
import { CorrectionPart } from './correction-part.tsx';
import { GuidedCheck } from './guided-check.tsx';
import { HistoryPart } from './history-part.tsx';
import { SettingsPart } from './settings-part.tsx';
import '../../../parts/form.css';
import '../rig.css';
import './check.css';

/** The check of a rig with known masses: begun, guided, looked at, and what came of it. */
export function CheckScreen() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const rig = useQuery(rigQuery(lab, id));
  const checks = useQuery(rigChecksQuery(lab, id));
  const failed = rig.error ?? checks.error;
  return (
    <section className="page live-page check-page">
      <Link className="way-back no-print" to={`/${lab}/rig/${id}`}>
        <Icon name="left" size={16} /> {t.back}
      </Link>
      {rig.data && checks.data ? (
        <>
          {failed && (
            <p className="band" role="alert">
              {rigWords.offline}
            </p>
          )}
          <CheckPage lab={lab} rig={rig.data} checks={checks.data} />
        </>
      ) : failed ? (
        <ProblemCard page error={failed} onRetry={() => void Promise.all([rig.refetch(), checks.refetch()])} />
      ) : (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
    </section>
  );
}

function CheckPage({ lab, rig, checks }: { lab: LabId; rig: RigView; checks: RigChecksView }) {
  const may = useMay();
  const [query] = useSearchParams();
  const shown = checks.checks.find(({ id }) => id === query.get('of')) ?? checks.checks[0];
  const { draft } = checks;
  return (
    <>
      <div className="page-head rig-head">
        <RigLetter letter={rig.letter} shape={rig.shape} size={40} />
        <h1>{t.title}</h1>
        <p className="soft">{rig.name}</p>
      </div>
      {may(rigCheckRoutes.beginRigCheck) && <SignFirst />}
      {draft ? (
        <GuidedCheck lab={lab} rig={rig} draft={draft} />
      ) : (
        <>
          {shown && <CheckResult check={shown} lab={lab} />}
          {shown && <CorrectionPart lab={lab} rig={rig} checks={checks} check={shown} key={shown.id} />}
          {may(rigCheckRoutes.beginRigCheck) && <BeginForm lab={lab} rig={rig} />}
          <HistoryPart lab={lab} rig={rig} checks={checks} shown={shown?.id} />
          {may(rigCheckRoutes.changeRigCheckSettings) && <SettingsPart lab={lab} />}
        </>
      )}
    </>
  );
}
