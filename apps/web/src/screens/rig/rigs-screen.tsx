import { type LabId, liveRoutes, type RigView, type StoredSourceView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { rigsQuery, sourcesQuery } from '../../data/rigs.ts';
import { problemOf } from '../../data/station.ts';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { LabMissing } from '../../parts/lab-missing.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { RigLetter } from '../../parts/rig-letter.tsx';
import { SignFirst } from '../../parts/signed.tsx';
import { words } from '../../words/index.ts';
import { rigWords as t } from '../../words/rig.ts';
import { knownMassLine } from './ready-rows.ts';
import { RigForm } from './rig-form.tsx';
import { RigStateMark, StandingMark } from './standing-mark.tsx';
import { VirtualPlates } from './virtual-offer.tsx';
import '../../parts/form.css';
import './rig.css';

/** Two rigs in one room are enough to try how they alternate. */
const mostVirtual = 2;

/** Rigs and sources of a lab. */
export function RigsScreen() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const rigs = useQuery(rigsQuery(lab));
  const may = useMay();
  // Who may not see them sees the rigs alone.
  const listed = may(liveRoutes.sources);
  const described = useQuery({ ...sourcesQuery(lab), enabled: listed });
  const sources = listed ? described : { ...described, data: [], isError: false };
  const setsUp = may(liveRoutes.createRig);
  const [forming, setForming] = useState(false);
  const failed = rigs.isError ? rigs : sources.isError ? sources : undefined;
  const missing = failed !== undefined && problemOf(failed.error).code === 'lab-missing';
  const there = rigs.data !== undefined && sources.data !== undefined;
  const empty = there && rigs.data.length === 0 && sources.data.length === 0;
  return (
    <section className="page live-page rig-page">
      <div className="page-head">
        <h1>{t.title}</h1>
        <p className="soft">{t.lead}</p>
      </div>
      {missing ? (
        <LabMissing />
      ) : (
        <>
          {setsUp && <SignFirst />}
          <Elsewhere unless={liveRoutes.createRig} about="rigs" />
          {failed && <ProblemCard error={failed.error} onRetry={() => void failed.refetch()} />}
        </>
      )}
      {!there && !failed && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {empty && (
        <div className="nothing">
          <h2>{t.empty.title}</h2>
          {setsUp && <p>{t.empty.text}</p>}
        </div>
      )}
      {there && rigs.data.length > 0 && <RigCards lab={lab} rigs={rigs.data} />}
      {there && setsUp && (
        <div className="acts">
          {lab === 'example' && rigs.data.length < mostVirtual && (
            <VirtualPlates lab={lab} rigs={rigs.data} sources={sources.data} />
          )}
          <Link className={`button${empty && lab === 'lab' ? ' main' : ''}`} to={`/${lab}/rig/sources/new`}>
            {t.acts.connect}
          </Link>
          {sources.data.length > 0 && !forming && (
            <button type="button" className="button" onClick={() => setForming(true)}>
              {t.acts.setUp}
            </button>
          )}
        </div>
      )}
      {forming && there && (
        <RigForm lab={lab} rigs={rigs.data} sources={sources.data} onClose={() => setForming(false)} />
      )}
      {there && sources.data.length > 0 && <SourceList lab={lab} sources={sources.data} />}
    </section>
  );
}

function RigCards({ lab, rigs }: { lab: LabId; rigs: readonly RigView[] }) {
  return (
    <ul className="rig-cards">
      {rigs.map((rig) => (
        <li key={rig.id} className="panel">
          <h2>
            <RigLetter letter={rig.letter} shape={rig.shape} />
            <Link to={`/${lab}/rig/${rig.id}`}>{rig.name}</Link>
          </h2>
          <RigStateMark state={rig.state} />
          <p className="small soft">{rig.words}</p>
          <KnownMasses rig={rig} />
        </li>
      ))}
    </ul>
  );
}

/** Only where somebody has to act: a check that failed, or is due. */
function KnownMasses({ rig }: { rig: RigView }) {
  const [standing, , said] = knownMassLine(rig);
  if (standing !== 'bad' && standing !== 'look') return null;
  return (
    <p className="small">
      <StandingMark standing={standing} word={t.check.titles['known-mass']} /> {said}
    </p>
  );
}

function SourceList({ lab, sources }: { lab: LabId; sources: readonly StoredSourceView[] }) {
  const changes = useMay()(liveRoutes.changeSource);
  return (
    <section className="panel" aria-labelledby="sources">
      <h2 id="sources">{t.sources.title}</h2>
      <ul className="source-list">
        {sources.map((source) => (
          <li key={source.id}>
            <b>{source.name}</b>
            <span className="soft">{t.sources.kinds[source.description.transport.kind]}</span>
            {changes && (
              <Link className="button" to={`/${lab}/rig/sources/${source.id}`} aria-label={t.sources.edit(source.name)}>
                {t.acts.change}
              </Link>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
