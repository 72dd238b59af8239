import type { LabId, MethodSummary } from '@sthene/contract';
import { methodRoutes } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { methodQuery, runsQuery, useMethods } from '../../data/methods.ts';
import { problemOf } from '../../data/station.ts';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { FollowPlaces } from '../../parts/follow-places.tsx';
import { LabMissing } from '../../parts/lab-missing.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { methodWords as t } from '../../words/methods.ts';
import { Sentences } from './plain-method.tsx';
import { RunList } from './run-list.tsx';
import '../../parts/form.css';
import './methods.css';

/** The lab's method in words, every other one, and when the archive was judged again. */
export function MethodsScreen() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const found = useMethods(lab);
  const missing = found.isError && problemOf(found.error).code === 'lab-missing';
  const rows = (found.data ?? []).filter(({ variant }) => !variant);
  const variants = (found.data ?? []).filter(({ variant }) => variant);
  const current = found.data?.find((one) => one.current);
  return (
    <section className="page live-page method-page" aria-busy={found.isFetching}>
      <FollowPlaces lab={lab} />
      <div className="page-head">
        <h1>{t.title}</h1>
        <p className="soft">{t.lead}</p>
      </div>
      {missing && <LabMissing />}
      {found.isError && !missing && <ProblemCard error={found.error} onRetry={() => void found.refetch()} />}
      {found.isPending && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {found.data && (
        <>
          <Elsewhere unless={methodRoutes.startRecomputation} about="methods" />
          {current && <Current lab={lab} method={current} />}
          <section aria-labelledby="own-methods">
            <h2 id="own-methods">{t.own}</h2>
            <List lab={lab} rows={rows.filter(({ builtIn }) => !builtIn)} label={t.own} none={t.none} />
          </section>
          <section aria-labelledby="built-in-methods">
            <h2 id="built-in-methods">{t.builtIn}</h2>
            <List lab={lab} rows={rows.filter(({ builtIn }) => builtIn)} label={t.builtIn} none="" />
          </section>
          {variants.length > 0 && (
            <details>
              <summary>{t.variants(variants.length)}</summary>
              <p className="small soft">{t.variantsHelp}</p>
              <List lab={lab} rows={variants} label={t.variants(variants.length)} none="" />
            </details>
          )}
          <Runs lab={lab} />
          <p>
            <Link to={`/${lab}/methods/nearest`}>{t.acts.nearest}</Link>
          </p>
        </>
      )}
    </section>
  );
}

function Current({ lab, method: { sha256, name, version } }: { lab: LabId; method: MethodSummary }) {
  const document = useQuery(methodQuery(lab, sha256));
  return (
    <section className="panel method-current" aria-labelledby="current-method">
      <h2 id="current-method">{t.current}</h2>
      <p>
        <Link className="method-name" to={`/${lab}/methods/${sha256}`}>
          {t.named(name, version)}
        </Link>
      </p>
      {document.data && <Sentences method={document.data} />}
      <p className="small soft">{t.currentHelp}</p>
    </section>
  );
}

function List({ lab, rows, label, none }: { lab: LabId; rows: readonly MethodSummary[]; label: string; none: string }) {
  if (rows.length === 0) return <p className="soft">{none}</p>;
  return (
    <div className="table-scroll">
      <table className="method-list">
        <caption className="unseen">{label}</caption>
        <thead>
          <tr>
            <th scope="col">{t.head.name}</th>
            <th scope="col" className="right">
              {t.head.version}
            </th>
            <th scope="col" className="not-on-phone">
              {t.head.hash}
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.sha256}>
              <th scope="row">
                <Link to={`/${lab}/methods/${row.sha256}`}>{row.name}</Link>
                {row.current && <span className="method-mark">{t.currentMark}</span>}
                <span className="small soft">{row.summary}</span>
              </th>
              <td className="right number">{row.version}</td>
              <td className="number soft not-on-phone">{row.sha256.slice(0, 12)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Runs({ lab }: { lab: LabId }) {
  const runs = useQuery(runsQuery(lab));
  return (
    <section aria-labelledby="runs">
      <h2 id="runs">{t.runs.title}</h2>
      {runs.isError && <ProblemCard error={runs.error} onRetry={() => void runs.refetch()} />}
      {runs.data && <RunList lab={lab} runs={runs.data} />}
    </section>
  );
}
