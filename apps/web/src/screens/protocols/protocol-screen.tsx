import type { LabId, ProtocolVersionView, ProtocolView } from '@sthene/contract';
import { addressOf, protocolRoutes } from '@sthene/contract';
import { type ProtocolDocument, protocolAdvice, protocolSentences } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams, useSearchParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { protocolQuery, protocolUseQuery, useProtocolAct } from '../../data/protocols.ts';
import { base } from '../../data/station.ts';
import { whenText } from '../../number/when.ts';
import { Answer } from '../../parts/answer.tsx';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { protocolWords as t } from '../../words/protocols.ts';
import { testTitle } from '../trial/test-title.ts';
import { Compare } from './compare.tsx';
import { ProtocolSheet } from './sheet.tsx';
import '../../parts/form.css';
import './protocols.css';

/** One protocol: a version in words, all its versions, what used it, and the page to print. */
export function ProtocolScreen() {
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const found = useQuery(protocolQuery(lab, id));
  usePageTitle(found.data?.name ?? t.title);
  return (
    <>
      <section className="page live-page protocol-page no-print">
        <Link className="way-back" to={`/${lab}/protocols`}>
          <Icon name="left" size={16} /> {t.back}
        </Link>
        <Answer page of={found}>
          {(data) => <Reading lab={lab} view={data} />}
        </Answer>
      </section>
      {found.data && <Sheet view={found.data} />}
    </>
  );
}

/** The version named in the address, else the newest. */
function useShown(view: ProtocolView): ProtocolVersionView {
  const [search] = useSearchParams();
  const { id = '' } = useParams();
  const wanted = search.get('version') ?? id;
  return view.versions.find(({ sha256 }) => sha256 === wanted) ?? (view.versions[0] as ProtocolVersionView);
}

function Sheet({ view }: { view: ProtocolView }) {
  const { document, sha256 } = useShown(view);
  return <ProtocolSheet document={document as ProtocolDocument} sha256={sha256} />;
}

function Reading({ lab, view }: { lab: LabId; view: ProtocolView }) {
  const shown = useShown(view);
  const document = shown.document as ProtocolDocument;
  const advice = protocolAdvice(document);
  const may = useMay();
  return (
    <>
      <div className="page-head">
        <h1>{view.name}</h1>
        <p className="soft">
          {testTitle(view.test)}, {t.version(document.version).toLowerCase()}
        </p>
      </div>
      {!view.builtIn && may(protocolRoutes.archiveProtocol) && <SignFirst />}
      <Acts lab={lab} view={view} shown={shown} />
      <div className="protocol-columns">
        <div className="protocol-form">
          <section className="panel" aria-labelledby="in-words">
            <h2 id="in-words">{t.plain}</h2>
            {document.summary !== '' && <p>{document.summary}</p>}
            <ul className="sentences">
              {protocolSentences(document).map((one) => (
                <li key={one}>{one}</li>
              ))}
            </ul>
            {document.localRules.length > 0 && (
              <>
                <h3>{t.edit.rules}</h3>
                <ul className="dots">
                  {document.localRules.map((one) => (
                    <li key={one}>{one}</li>
                  ))}
                </ul>
              </>
            )}
            {advice.length > 0 && (
              <>
                <h3>{t.advice}</h3>
                <ul className="dots small">
                  {advice.map((one) => (
                    <li key={`${one.at}${one.code}`}>{one.words}</li>
                  ))}
                </ul>
              </>
            )}
            <p className="small soft">
              {view.builtIn
                ? t.ofProgram
                : t.addedBy(shown.by ?? '', shown.addedAt === undefined ? '' : whenText(shown.addedAt))}
            </p>
            <p className="small soft hash-line">
              {t.hash} <span className="number">{shown.sha256}</span>
            </p>
          </section>
          {view.versions.length > 1 && <Compare versions={view.versions} shown={shown} />}
        </div>
        <aside className="protocol-side">
          {!view.builtIn && <Versions lab={lab} view={view} shown={shown} />}
          <Use lab={lab} view={view} />
        </aside>
      </div>
    </>
  );
}

function Acts({ lab, view, shown }: { lab: LabId; view: ProtocolView; shown: ProtocolVersionView }) {
  const act = useProtocolAct(lab);
  const by = useSigned();
  const say = useSay();
  const may = useMay();
  const putAway = () => {
    if (!by) return say(dayWords.sign.needed);
    act.mutate(
      { kind: 'archive', id: view.id, archived: !view.archived, by },
      { onSuccess: ({ archived }) => say(archived ? t.acts.archived : t.acts.restored) },
    );
  };
  return (
    <>
      <div className="acts">
        <button type="button" className="button main" onClick={() => window.print()}>
          {t.acts.print}
        </button>
        {!view.builtIn && may(protocolRoutes.succeedProtocol) && (
          <Link className="button" to={`/${lab}/protocols/${view.id}/edit`}>
            {t.acts.change}
          </Link>
        )}
        {may(protocolRoutes.createProtocol) && (
          <Link className="button" to={`/${lab}/protocols/new?from=${shown.sha256}`}>
            {t.acts.changeOwn}
          </Link>
        )}
        <a
          className="button"
          href={`${base}${addressOf(protocolRoutes.protocolFile, { lab, id: shown.sha256 })}`}
          download
        >
          {t.acts.share}
        </a>
        {!view.builtIn && may(protocolRoutes.archiveProtocol) && (
          <button type="button" className="button" disabled={act.isPending} onClick={putAway}>
            {view.archived ? t.acts.restore : t.acts.archive}
          </button>
        )}
      </div>
      <Elsewhere unless={protocolRoutes.createProtocol} about="protocols" />
      {act.isError && <ProblemCard error={act.error} />}
    </>
  );
}

function Versions({ lab, view, shown }: { lab: LabId; view: ProtocolView; shown: ProtocolVersionView }) {
  return (
    <section className="panel" aria-labelledby="versions">
      <h2 id="versions">{t.versions.title}</h2>
      <ol className="version-list" reversed>
        {view.versions.map((one, i) => (
          <li key={one.sha256} aria-current={one === shown ? 'true' : undefined}>
            <Link to={`/${lab}/protocols/${view.id}?version=${one.sha256}`}>
              <b>{t.version(one.document.version)}</b>
            </Link>
            {i === 0 && <span className="small soft"> {t.versions.newest}</span>}
            {one === shown && <span className="small soft"> {t.versions.shown}</span>}
            {one.document.note !== '' && <p>{one.document.note}</p>}
            <p className="small soft">
              {t.addedBy(one.by ?? '', one.addedAt === undefined ? '' : whenText(one.addedAt))},{' '}
              {t.use.total(one.sessions)}
            </p>
          </li>
        ))}
      </ol>
    </section>
  );
}

function Use({ lab, view }: { lab: LabId; view: ProtocolView }) {
  const use = useQuery(protocolUseQuery(lab, view.id));
  const all = (use.data ?? []).flatMap(({ version, sessions }) => sessions.map((one) => ({ ...one, version })));
  const total = (use.data ?? []).reduce((sum, one) => sum + one.total, 0);
  const shown = all.slice(0, 12);
  return (
    <section className="panel" aria-labelledby="use">
      <h2 id="use">{t.use.title}</h2>
      {use.isError && <ProblemCard error={use.error} onRetry={() => void use.refetch()} />}
      {use.data && total === 0 && <p className="soft">{t.use.none}</p>}
      {total > 0 && (
        <>
          <p>{t.use.total(total)}</p>
          <ul className="use-list">
            {shown.map((one) => (
              <li key={one.id}>
                <Link to={`/${lab}/sessions/${one.id}`}>
                  {one.person.name}, {whenText(one.startedAt, false)}
                </Link>{' '}
                <span className="small soft">{t.version(one.version).toLowerCase()}</span>
              </li>
            ))}
          </ul>
          {total > shown.length && <p className="small soft">{t.use.more(total - shown.length)}</p>}
        </>
      )}
    </section>
  );
}
