import { type LabId, type ProtocolRow, protocolRoutes } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { Link, useNavigate } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { protocolsQuery, useProtocolAct } from '../../data/protocols.ts';
import { problemOf } from '../../data/station.ts';
import { whenText } from '../../number/when.ts';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { JsonFileButton } from '../../parts/json-file-button.tsx';
import { LabMissing } from '../../parts/lab-missing.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { words } from '../../words/index.ts';
import { protocolWords as t } from '../../words/protocols.ts';
import { testTitle } from '../trial/test-title.ts';
import '../../parts/form.css';
import './protocols.css';

/** The lab's protocols, then the built-in ones, then what was put away. */
export function ProtocolsScreen() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const found = useQuery(protocolsQuery(lab));
  const makes = useMay()(protocolRoutes.createProtocol);
  const missing = found.isError && problemOf(found.error).code === 'lab-missing';
  const rows = found.data ?? [];
  const own = rows.filter(({ builtIn, archived }) => !builtIn && !archived);
  const away = rows.filter(({ archived }) => archived);
  return (
    <section className="page live-page protocol-page" aria-busy={found.isFetching}>
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
          {makes && <SignFirst />}
          {makes && <Beginnings lab={lab} rows={rows} />}
          <Elsewhere unless={protocolRoutes.createProtocol} about="protocols" />
          <section aria-labelledby="own">
            <h2 id="own">{t.own}</h2>
            {own.length === 0 ? <p className="soft">{t.none}</p> : <Table lab={lab} rows={own} label={t.own} />}
          </section>
          <section aria-labelledby="built-in">
            <h2 id="built-in">{t.builtIn}</h2>
            <Table lab={lab} rows={rows.filter(({ builtIn }) => builtIn)} label={t.builtIn} />
          </section>
          {away.length > 0 && (
            <details>
              <summary>{t.archivedTitle(away.length)}</summary>
              <Table lab={lab} rows={away} label={t.archivedTitle(away.length)} />
            </details>
          )}
        </>
      )}
    </section>
  );
}

function Table({ lab, rows, label }: { lab: LabId; rows: readonly ProtocolRow[]; label: string }) {
  const dated = rows.some(({ changedAt }) => changedAt !== undefined);
  return (
    <div className="table-scroll">
      <table className="protocol-list">
        <caption className="unseen">{label}</caption>
        <thead>
          <tr>
            <th scope="col">{t.head.name}</th>
            <th scope="col">{t.head.test}</th>
            <th scope="col" className="right">
              {t.head.version}
            </th>
            <th scope="col" className="right">
              {t.head.sessions}
            </th>
            {dated && <th scope="col">{t.head.changed}</th>}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.id}>
              <th scope="row">
                <Link className="day-link" to={`/${lab}/protocols/${row.id}`}>
                  {row.name}
                </Link>
                <span className="small soft">{row.summary}</span>
              </th>
              <td>{testTitle(row.test)}</td>
              <td className="right number">{row.version}</td>
              <td className="right number">{row.sessions}</td>
              {dated && <td>{row.changedAt === undefined ? '' : whenText(row.changedAt, false)}</td>}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** Two ways to a protocol of one's own: from one that is there, or from a file. */
function Beginnings({ lab, rows }: { lab: LabId; rows: readonly ProtocolRow[] }) {
  const id = useId();
  const [from, setFrom] = useState('imtp');
  const [wrong, setWrong] = useState('');
  const act = useProtocolAct(lab);
  const navigate = useNavigate();
  const by = useSigned();
  const say = useSay();
  const take = async (file: File) => {
    let document: unknown;
    try {
      document = JSON.parse(await file.text());
    } catch {
      return setWrong(t.notJson(file.name));
    }
    if (typeof document !== 'object' || document === null || Array.isArray(document))
      return setWrong(t.notJson(file.name));
    if (!by) return say(dayWords.sign.needed);
    setWrong('');
    act.mutate(
      { kind: 'import', document: document as Record<string, unknown>, by },
      {
        onSuccess: (view) => {
          say(t.imported(view.name));
          void navigate(`/${lab}/protocols/${view.id}`);
        },
      },
    );
  };
  return (
    <>
      <form
        className="acts beginnings"
        onSubmit={(event) => {
          event.preventDefault();
          void navigate(`/${lab}/protocols/new?from=${encodeURIComponent(from)}`);
        }}
      >
        <div className="field">
          <label htmlFor={id}>{t.makeFrom}</label>
          <select id={id} value={from} onChange={(event) => setFrom(event.target.value)}>
            {rows
              .filter(({ archived }) => !archived)
              .map((row) => (
                <option key={row.id} value={row.id}>
                  {row.name}
                </option>
              ))}
          </select>
        </div>
        <button type="submit" className="button main">
          {t.make}
        </button>
        <JsonFileButton label={t.importFile} onFile={(file) => void take(file)} />
      </form>
      {wrong !== '' && (
        <p className="field-error" role="alert">
          {wrong}
        </p>
      )}
      {act.isError && <ProblemCard error={act.error} />}
    </>
  );
}
