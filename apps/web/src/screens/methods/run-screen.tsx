import { type LabId, methodRoutes, type Recomputation } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useParams, useSearchParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { comparisonQuery, runQuery, useRunAct } from '../../data/methods.ts';
import { whenText } from '../../number/when.ts';
import { Answer } from '../../parts/answer.tsx';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { methodWords } from '../../words/methods.ts';
import { ComparedTable } from './compared-table.tsx';
import { EndDialog } from './end-dialog.tsx';
import { FailuresPart } from './failures-part.tsx';
import { FlipsPart } from './flips-part.tsx';
import { HandedOutPart } from './handed-out-part.tsx';
import { PairDetail } from './pair-detail.tsx';
import { RunState } from './run-list.tsx';
import { RunProgress } from './run-progress.tsx';
import '../../parts/form.css';
import './methods.css';

const t = methodWords.runs;

/** One run over the archive: how far it is, what it changes, and its end. */
export function RunScreen() {
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const found = useQuery(runQuery(lab, id));
  usePageTitle(found.data ? methodWords.named(found.data.method.name, found.data.method.version) : t.title);
  return (
    <section className="page live-page method-page">
      <Link className="way-back" to={`/${lab}/methods`}>
        <Icon name="left" size={16} /> {methodWords.back}
      </Link>
      <Answer page of={found}>
        {(data) => <Reading lab={lab} run={data} />}
      </Answer>
    </section>
  );
}

function Reading({ lab, run }: { lab: LabId; run: Recomputation }) {
  const may = useMay();
  const { name, version, sha256 } = run.method;
  return (
    <>
      <div className="page-head">
        <h1>{methodWords.named(name, version)}</h1>
        <RunState state={run.state} />
      </div>
      <p className="small soft">
        {t.startedBy(run.startedBy, whenText(run.startedAt))}{' '}
        <Link to={`/${lab}/methods/${sha256}`}>{methodWords.plain}</Link>
      </p>
      {may(methodRoutes.adoptRecomputation) && <SignFirst />}
      <Elsewhere unless={methodRoutes.adoptRecomputation} about="methods" />
      <section className="panel" aria-label={t.title}>
        <RunProgress run={run} />
        {run.words !== '' && <p className="field-error">{t.fault(run.words)}</p>}
        {(run.behind ?? 0) > 0 && <p>{t.behind(run.behind ?? 0, run.behind === 1000)}</p>}
        {run.ended && (
          <p>
            {(run.state === 'adopted' ? t.adopted : t.discarded)(
              run.ended.by,
              whenText(run.ended.at),
              run.ended.reason,
            )}
          </p>
        )}
        <Acts lab={lab} run={run} />
      </section>
      <Found lab={lab} run={run} />
    </>
  );
}

function Acts({ lab, run }: { lab: LabId; run: Recomputation }) {
  const act = useRunAct(lab);
  const by = useSigned();
  const say = useSay();
  const may = useMay();
  const [ending, setEnding] = useState<'adopt' | 'discard'>();
  const { state, id, here } = run;
  const open = state !== 'adopted' && state !== 'discarded';
  if (!open || !may(methodRoutes.adoptRecomputation)) return null;
  const go = (kind: 'pause' | 'resume') => {
    if (!by) return say(dayWords.sign.needed);
    act.mutate({ kind, id, by });
  };
  const goesOn = state === 'paused' || state === 'failed' || (state === 'running' && !here);
  return (
    <>
      <div className="acts">
        {state === 'finished' && (
          <button type="button" className="button main" onClick={() => setEnding('adopt')}>
            {t.adopt}
          </button>
        )}
        {goesOn && (
          <button type="button" className="button main" disabled={act.isPending} onClick={() => go('resume')}>
            {t.resume}
          </button>
        )}
        {state === 'running' && (
          <button type="button" className="button" disabled={act.isPending} onClick={() => go('pause')}>
            {t.pause}
          </button>
        )}
        <button type="button" className="button" onClick={() => setEnding('discard')}>
          {t.discard}
        </button>
      </div>
      {act.isError && <ProblemCard error={act.error} />}
      {ending && <EndDialog lab={lab} run={run} kind={ending} onClose={() => setEnding(undefined)} />}
    </>
  );
}

/** What the run changes: flips, values, failures, reports. Shown once it stands still. */
function Found({ lab, run }: { lab: LabId; run: Recomputation }) {
  const [search] = useSearchParams();
  const still = run.state !== 'running';
  const comparison = useQuery(comparisonQuery(lab, run.id, still));
  const metric = search.get('metric');
  const detailOf = (id: string) => {
    const next = new URLSearchParams(search);
    next.set('metric', id);
    return `?${next}`;
  };
  if (!still) return <p className="soft">{t.later}</p>;
  const { data } = comparison;
  return (
    <>
      <FlipsPart lab={lab} run={run.id} />
      {metric !== null && <PairDetail lab={lab} run={run.id} metric={metric} metrics={data?.metrics ?? []} />}
      <section className="panel" aria-labelledby="run-values" aria-busy={data?.complete === false}>
        <h2 id="run-values">{methodWords.comparison.title}</h2>
        <p className="small soft">{methodWords.comparison.note}</p>
        {comparison.isError && <ProblemCard error={comparison.error} onRetry={() => void comparison.refetch()} />}
        {(comparison.isPending || data?.complete === false) && (
          <p className="soft" role="status">
            {t.loading}
          </p>
        )}
        {data && <ComparedTable metrics={data.metrics} detailOf={detailOf} />}
        <p className="small soft">{methodWords.comparison.intervals}</p>
      </section>
      {run.failed > 0 && <FailuresPart lab={lab} run={run.id} />}
      <HandedOutPart lab={lab} run={run.id} />
    </>
  );
}
